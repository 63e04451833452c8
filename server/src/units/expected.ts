import type { Quantity } from './quantity.ts';

/** From one value to another, SI. */
export type Range = { from: number; to: number };

/** What a field takes: its range, the usual sizes and units of it, and the range that nearly all values are in, if it has one. */
export type Expected = Range & { usual: readonly Quantity[]; likely?: Range };

/** A field of which nothing is known. */
export const anything: Expected = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY, usual: [] };

/** Whether a quantity lies in the field's range with its whole tolerance. */
export function isWithin({ low, high }: Quantity, { from, to }: Expected): boolean {
  return low >= from && high <= to;
}

/** How far a value is from what is usual, as the logarithm of their ratio; infinite where that says nothing. */
export function distanceFromUsual({ value }: Quantity, { usual }: Expected): number {
  const distances = usual.map((one) => Math.abs(Math.log(value / one.value)));
  return Math.min(Number.POSITIVE_INFINITY, ...distances.filter((one) => !Number.isNaN(one)));
}
