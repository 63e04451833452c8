import type { FieldPath, Path } from '../sheet/path.ts';
import type { Dimension } from '../units/units.ts';

/** A value that goes into a figure: given in the sheet, assumed, or a figure itself. SI value. */
export type Term = {
  symbol: string;
  name: string;
  value: number;
  dimension: Dimension;
  /** What to show in place of the number, for a table or a choice. */
  text?: string;
  /** Path of the field it is given by. */
  field?: Path;
  /** Why this value was taken where the sheet says nothing. */
  assumed?: string;
  /** Id of the figure it is. */
  figure?: string;
};

/** A computed value with all that is needed to show how it came about. */
export type Figure = Term & {
  readonly id: string;
  readonly figure: string;
  readonly formula: string;
  readonly inputs: readonly Term[];
  readonly source: string;
  /** What the reader should know before relying on it. */
  readonly notes: readonly string[];
  /** Fields on whose hover it belongs. */
  readonly home: readonly FieldPath[];
  /** Bounds where tolerances are given. */
  low?: number;
  high?: number;
};

/** The ends a figure can reach. */
export type Bounds = { readonly low: number; readonly high: number };

/** The number of a figure in SI with the ends it can reach where tolerances are given, without what explains it. */
export type Estimate = {
  readonly name: string;
  readonly value: number;
  readonly dimension: Dimension;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
};

/** A value that is known. */
export type Known<T> = { readonly value: T };

/**
 * A value that cannot be had: fields it lacks, what makes it impossible, or that it makes no sense in this stage; `unread`
 * where a field may be written in a part of the text that could not be read.
 */
export type Absent = {
  readonly lacks: readonly FieldPath[];
  readonly impossible?: string;
  readonly moot?: true;
  readonly unread?: true;
};

export type Outcome<T> = Known<T> | Absent;

export function isKnown<T>(outcome: Outcome<T>): outcome is Known<T> {
  return 'value' in outcome;
}

/** What keeps two values that are needed together from being known. */
export function both(one: Absent, other: Absent): Absent {
  const impossible = one.impossible ?? other.impossible;
  return {
    lacks: [...new Set([...one.lacks, ...other.lacks])],
    ...(impossible && { impossible }),
    ...((one.moot || other.moot) && { moot: true }),
    ...((one.unread || other.unread) && { unread: true }),
  };
}
