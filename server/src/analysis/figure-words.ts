import type { Dimension } from '../units/units.ts';
import type { Estimate } from './figure.ts';

/** A figure as text, with its bounds where tolerances are given: `82.4 % (77.5 % to 87.3 %)`. */
export function withSpread(
  { value, low, high, dimension }: Omit<Estimate, 'name'>,
  show: (value: number, dimension: Dimension, spread?: number) => string,
): string {
  if (low === undefined || high === undefined) return show(value, dimension);
  const [nominal, from, to] = [value, low, high].map((one) => show(one, dimension, high - low));
  return `${nominal} (${from} to ${to})`;
}

/** A name as it begins a line or a sentence. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A name as it stands within a sentence. */
export function uncapital(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
