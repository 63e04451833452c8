import type { Quantity } from './quantity.ts';
import { type Dimension, type DimensionUnits, dimensions, findUnit } from './units.ts';
import { formatGauge, nearestGauge } from './wire-gauge.ts';

/** A number with four significant digits, without trailing zeros and without an exponent for everyday sizes. */
export function formatNumber(value: number): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size >= 1e6 || size < 1e-4) return value.toExponential(3);
  return String(Number(size >= 1000 ? value.toFixed(0) : value.toPrecision(4)));
}

/** An SI value in the named unit of its dimension, as text. */
export function formatIn(value: number, dimension: Dimension, name: string): string {
  if (name === 'AWG') return formatGauge(value);
  const unit = findUnit(dimension, name);
  if (!unit) throw new RangeError(`${name} is not a unit of ${dimension}`);
  return `${formatNumber((value - (unit.offset ?? 0)) / unit.factor)} ${unit.name}`.trim();
}

/** An SI value in the unit that suits its size, in the given system. */
export function formatValue(value: number, dimension: Dimension, system: 'us' | 'si'): string {
  return formatIn(value, dimension, suitableUnit(value, dimension, system));
}

const ROUNDING = {
  up: (steps: number) => Math.ceil(steps - 0.2),
  down: (steps: number) => Math.floor(steps + 0.2),
  near: Math.round,
};

/**
 * A value with three significant figures in the unit that suits its size, or in the named one. An end of a range is rounded
 * into the range, a low end up, a high end down, but for what is less than a fifth of the last digit.
 */
export function formatEnd(
  value: number,
  dimension: Dimension,
  system: 'us' | 'si',
  way: keyof typeof ROUNDING,
  name = suitableUnit(value, dimension, system),
): string {
  const unit = findUnit(dimension, name);
  if (!unit || name === 'AWG') return formatIn(value, dimension, name);
  const number = (value - (unit.offset ?? 0)) / unit.factor;
  const step = 10 ** (Math.floor(Math.log10(Math.abs(number) || 1)) - 2);
  return `${Number((ROUNDING[way](number / step) * step).toPrecision(4))} ${unit.name}`.trim();
}

/** The name of the unit that suits the size of an SI value, in the given system. */
export function suitableUnit(value: number, dimension: Dimension, system: 'us' | 'si'): string {
  const [usual, large] = (dimensions[dimension] as DimensionUnits)[system];
  if (usual === 'AWG' && nearestGauge(value) === undefined) return 'mm^2';
  const unit = findUnit(dimension, usual ?? '');
  const size = Math.abs(value) / (unit?.factor ?? 1);
  const limit = system === 'si' ? 1000 : 48;
  return large && size >= limit ? large : (usual ?? '');
}

/** The quantity in the usual units of both systems that differ from its own. */
export function conversions({ value, dimension, unit }: Quantity): string[] {
  const fitting = [suitableUnit(value, dimension, 'us'), suitableUnit(value, dimension, 'si')];
  return [...new Set(fitting)].filter((name) => name !== unit).map((name) => formatIn(value, dimension, name));
}
