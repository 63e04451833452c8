import type { Dimension } from './units.ts';

/** Points of a curve, such as a pump's: pressure and flow. */
export type Points = [Quantity, Quantity][];

/** A measured or chosen value: SI value, its lower and upper bound where a tolerance is given, and how it was written. */
export type Quantity = {
  value: number;
  low: number;
  high: number;
  dimension: Dimension;
  unit: string;
  text: string;
  /** What was taken for granted in reading it. */
  note?: string;
  /** A vacuum, counted down from the air around, in a field for an absolute pressure: the value is that at sea level. */
  isVacuum?: true;
};

/** What is wrong with a quantity's text, where in the text, and texts that would be right. */
export type QuantityError = { message: string; start: number; end: number; instead: string[] };

/** Whether a value of a sheet is a quantity, rather than a word, a number or a section. */
export function isQuantityValue(value: unknown): value is Quantity {
  return typeof value === 'object' && value !== null && 'dimension' in value && 'value' in value;
}

/** Whether a text was read as a quantity. */
export function isQuantity(read: Quantity | { message: string }): read is Quantity {
  return 'dimension' in read;
}
