import { isQuantityValue, type Quantity } from '../units/quantity.ts';
import type { StageAnalysis } from './analysis.ts';
import type { Estimate } from './figure.ts';
import { type Measurable, measurables } from './measurables.ts';
import { latestWith, type Reading } from './readings.ts';

/** A reading of a stage beside its figure. */
export type Compared = {
  about: Measurable;
  reading: Reading;
  /** Its number in the list of readings. */
  index: number;
  read: Quantity;
  /** The ends of what may have been there: by the tolerance of the reading, else by that of the usual instrument. */
  low: number;
  high: number;
  /** What it was to be; nothing where the figure cannot be had. */
  computed: Estimate | undefined;
  /** Whether the two do not meet within their tolerances. */
  isApart: boolean;
};

/** The latest reading of everything that was read in a stage, beside its figure. */
export function comparedIn(stage: StageAnalysis): Compared[] {
  return measurables.flatMap((about) => {
    const found = latestWith(stage.sheet, about.field);
    const read = found?.reading[about.field];
    if (!found || !isQuantityValue(read)) return [];
    const computed = stage.estimate(about.figure);
    const { low, high } = boundsOf(about, read);
    const isApart = computed !== undefined && !meets({ low, high }, computed);
    return [{ about, ...found, read, low, high, computed, isApart }];
  });
}

function boundsOf({ instrument: { share, fixed } }: Measurable, { value, low, high }: Quantity) {
  if (low !== high) return { low, high };
  const off = fixed + share * Math.abs(value);
  return { low: value - off, high: value + off };
}

/** Whether a figure, with its ends where it has some, meets a range. */
export function meets(
  range: { low: number; high: number },
  { value, low, high }: Omit<Estimate, 'name' | 'dimension'>,
) {
  return (low ?? value) <= range.high && (high ?? value) >= range.low;
}
