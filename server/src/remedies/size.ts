import { renard20 } from '../engineering/series.ts';
import { formatIn } from '../units/format.ts';
import type { Quantity } from '../units/quantity.ts';
import { findUnit, type Unit } from '../units/units.ts';

/** An SI value as text in the unit the sheet uses for the field, rounded up to a round figure of that unit. */
export function roundedUp(value: number, like: Quantity): string {
  return rounded(value, like, Math.ceil);
}

/** An SI value as text in the unit the sheet uses for the field, rounded down to a round figure of that unit. */
export function roundedDown(value: number, like: Quantity): string {
  return rounded(value, like, Math.floor);
}

/** An SI value as text in the unit the sheet uses for the field, rounded up in steps that parts are sold in: 5 psi, 50 hp. */
export function coarselyUp(value: number, like: Quantity): string {
  return rounded(value, like, Math.ceil, 2);
}

function rounded(value: number, like: Quantity, round: (value: number) => number, fineness = 20): string {
  const unit = unitOf(like);
  const number = (value - (unit.offset ?? 0)) / unit.factor;
  const step = 10 ** Math.floor(Math.log10(Math.abs(number) || 1)) / fineness;
  const result = Number((round(number / step) * step).toPrecision(6));
  return `${result} ${unit.name}`.trim();
}

/** A size that is sold: SI value and text. */
export type Size = { value: number; text: string };

/** Preferred numbers from `low` to `high`, SI values, in the unit the sheet uses for the field. Source: ISO 3:1973, series R20. */
export function preferredSizes(low: number, high: number, like: Quantity): Size[] {
  const { name, factor } = unitOf(like);
  return renard20(factor, (low / factor) * (1 - 1e-9), (high / factor) * (1 + 1e-9)).map((value) => ({
    value,
    text: formatIn(value, like.dimension, name),
  }));
}

function unitOf({ dimension, unit: name }: Quantity): Unit {
  const unit = findUnit(dimension, name);
  if (!unit) throw new RangeError(`${name} is not a unit of ${dimension}`);
  return unit;
}
