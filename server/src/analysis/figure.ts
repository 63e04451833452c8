import type { Path } from '../sheet/schema.ts';
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
  id: FigureId;
  figure: FigureId;
  formula: string;
  inputs: readonly Term[];
  source: string;
  /** What the reader should know before relying on it. */
  notes: readonly string[];
  /** Fields on whose hover it belongs. */
  home: readonly string[];
  /** Bounds where tolerances are given. */
  low?: number;
  high?: number;
};

/** A figure that cannot be computed: fields that are missing for it, or what makes it impossible. */
export type Absent = { needs: readonly string[]; impossible?: string };

export type Maybe<T extends Term = Term> = T | Absent;

export function isKnown<T extends Term>(term: Maybe<T>): term is T {
  return 'value' in term;
}

/** The value of a term, if there is one. */
export function numberOf(term: Maybe | undefined): number | undefined {
  return term && isKnown(term) ? term.value : undefined;
}

export type FigureId = string;
