import fc from 'fast-check';

/** A number from `min` to `max`. */
export function size(min: number, max: number): fc.Arbitrary<number> {
  return fc.double({ min, max, noNaN: true });
}

/** Two numbers from `min` to `max`, the second above the first by more than rounding. */
export function rising(min: number, max: number): fc.Arbitrary<[number, number]> {
  const gap = (max - min) * 1e-5;
  return size(min, max - gap).chain((low) => fc.tuple(fc.constant(low), size(low + gap, max)));
}
