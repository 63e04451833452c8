import { anything, type Expected } from './expected.ts';
import { meant } from './meant.ts';
import { isQuantity, type Quantity, type QuantityError } from './quantity.ts';
import { LONGEST_QUANTITY, readQuantity } from './read.ts';
import type { Dimension } from './units.ts';

/**
 * Reads `350 hp`, `1 3/4 in`, `3½ in`, `18 gallons`, `12 AWG`, `350 +/- 15 hp`, `225 L/h +/- 5 %` or `1.2..1.4 ms` as a
 * quantity of the given dimension. A range's nominal value is its middle; an offset unit's tolerance is a difference. What
 * is offered instead of a wrong text has its digits and fits what is expected of the field.
 */
export function parseQuantity(
  text: string,
  dimension: Dimension,
  expected: Expected = anything,
): Quantity | QuantityError {
  const read = readQuantity(text, dimension);
  if (isQuantity(read)) return read;
  if (text.length > LONGEST_QUANTITY) return { ...read, instead: [] };
  return meant(text, read, dimension, expected);
}
