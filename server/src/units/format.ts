import { estimate, numberIn } from './digits.ts';
import type { Quantity } from './quantity.ts';
import { type Dimension, type DimensionUnits, dimensions, findUnit, type System } from './units.ts';
import { formatGauge, nearestGauge } from './wire-gauge.ts';

/** The units values are shown in: those of a system, or of a system but for kinds of quantity with units of their own. */
export type Units = System | { readonly system: System; readonly own: Readonly<Partial<Record<Dimension, string>>> };

/** The system behind units. */
export function systemOf(units: Units): System {
  return typeof units === 'string' ? units : units.system;
}

/** A number as someone wrote it, with up to four significant digits and without an exponent for everyday sizes. */
export function formatNumber(value: number): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size >= 1e6 || size < 1e-4) return value.toExponential(3);
  return String(Number(size >= 1000 ? value.toFixed(0) : value.toPrecision(4)));
}

/** A given SI value in the named unit of its dimension, as text. */
export function formatIn(value: number, dimension: Dimension, name: string): string {
  if (name === 'AWG') return formatGauge(value);
  const unit = findUnit(dimension, name);
  if (!unit) throw new RangeError(`${name} is not a unit of ${dimension}`);
  return `${formatNumber(numberIn(value, unit))} ${unit.name}`.trim();
}

/** A given SI value in the unit that suits its size. */
export function formatGiven(value: number, dimension: Dimension, units: Units): string {
  return formatIn(value, dimension, unitFor(value, dimension, units));
}

/**
 * A computed SI value in the unit that suits its size, with the digits it deserves: by its kind, and no more than its
 * `spread` from low to high leaves.
 */
export function formatValue(value: number, dimension: Dimension, units: Units, spread = 0): string {
  return estimate(value, dimension, unitFor(value, dimension, units), undefined, spread);
}

const ROUNDING = { up: (steps: number) => Math.ceil(steps - 0.2), down: (steps: number) => Math.floor(steps + 0.2) };

/**
 * An end of a range with three significant figures in the unit that suits its size, or in the named one, rounded into the
 * range, a low end up, a high end down, but for what is less than a fifth of the last digit.
 */
export function formatEnd(
  value: number,
  dimension: Dimension,
  units: Units,
  way: keyof typeof ROUNDING,
  name = unitFor(value, dimension, units),
): string {
  const unit = findUnit(dimension, name);
  if (!unit || name === 'AWG') return formatIn(value, dimension, name);
  const number = numberIn(value, unit);
  const step = 10 ** (Math.floor(Math.log10(Math.abs(number) || 1)) - 2);
  return `${Number((ROUNDING[way](number / step) * step).toPrecision(4))} ${unit.name}`.trim();
}

/** The units values of a kind are shown in, the usual one before that for large ones. */
export function unitsOf(dimension: Dimension, units: Units): readonly string[] {
  const own = typeof units === 'string' ? units : (units.own[dimension] ?? units.system);
  return own === 'us' || own === 'si' ? (dimensions[dimension] as DimensionUnits)[own] : [own];
}

/** The unit that suits the size of an SI value. */
export function unitFor(value: number, dimension: Dimension, units: Units): string {
  const [usual, large] = unitsOf(dimension, units);
  if (usual === 'AWG' && nearestGauge(value) === undefined) return 'mm^2';
  const unit = findUnit(dimension, usual ?? '');
  const size = Math.abs(value) / (unit?.factor ?? 1);
  const limit = usual === 'in' ? 48 : 1000;
  return large && size >= limit ? large : (usual ?? '');
}

/** The quantity in the usual units of both systems that differ from its own. */
export function conversions({ value, dimension, unit }: Quantity): string[] {
  const fitting = [unitFor(value, dimension, 'us'), unitFor(value, dimension, 'si')];
  return [...new Set(fitting)].filter((name) => name !== unit).map((name) => formatIn(value, dimension, name));
}
