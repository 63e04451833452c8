import { findRoot } from './roots.ts';

/**
 * An argument between two ends at which a function has a value; nothing where the ends do not lie on both sides of it, or
 * where the function has no value on the way. Meant for functions that only rise or only fall.
 * Source: as `findRoot`.
 */
export function argumentFor(
  value: number,
  at: (argument: number) => number | undefined,
  from: number,
  to: number,
): number | undefined {
  try {
    return findRoot((argument) => (at(argument) ?? Number.NaN) - value, from, to);
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}
