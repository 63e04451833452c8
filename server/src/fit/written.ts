import { type Dimension, findUnit } from '../units/units.ts';

/** An SI value as a text that a field takes, rounded to whole steps of a unit. @throws RangeError for a unit of another dimension */
export function written(value: number, dimension: Dimension, unit: string, step: number): string {
  const found = findUnit(dimension, unit);
  if (!found) throw new RangeError(`${unit} is not a unit of ${dimension}`);
  const number = Math.round((value - (found.offset ?? 0)) / found.factor / step) * step;
  return `${Number(number.toPrecision(9))} ${unit}`.trim();
}
