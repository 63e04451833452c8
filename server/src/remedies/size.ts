import type { Quantity } from '../units/quantity.ts';
import { findUnit } from '../units/units.ts';

/** An SI value as text in the unit the sheet uses for the field, rounded up to a round figure of that unit. */
export function roundedUp(value: number, like: Quantity): string {
  return rounded(value, like, Math.ceil);
}

/** An SI value as text in the unit the sheet uses for the field, rounded down to a round figure of that unit. */
export function roundedDown(value: number, like: Quantity): string {
  return rounded(value, like, Math.floor);
}

function rounded(value: number, { dimension, unit: name }: Quantity, round: (value: number) => number): string {
  const unit = findUnit(dimension, name);
  if (!unit) throw new RangeError(`${name} is not a unit of ${dimension}`);
  const number = (value - (unit.offset ?? 0)) / unit.factor;
  const step = 10 ** Math.floor(Math.log10(Math.abs(number) || 1)) / 20;
  const result = Number((round(number / step) * step).toPrecision(6));
  return `${result} ${unit.name}`.trim();
}
