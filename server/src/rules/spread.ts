import type { Figure } from '../analysis/figure.ts';
import type { Situation } from './rule.ts';

/** A figure as text, with its bounds where tolerances are given: `82.4 % (77.5 % to 87.3 %)`. */
export function withSpread(figure: Figure, { showValue }: Pick<Situation, 'showValue'>): string {
  const { value, low, high, dimension } = figure;
  const text = showValue(value, dimension);
  if (low === undefined || high === undefined) return text;
  return `${text} (${showValue(low, dimension)} to ${showValue(high, dimension)})`;
}
