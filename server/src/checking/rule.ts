import type { Compared as ComparedReading } from '../analysis/compared.ts';
import type { Explanation } from '../analysis/explanations.ts';
import type { Estimate } from '../analysis/figure.ts';
import type { FigureNode, Node } from '../analysis/node.ts';
import type { Induction } from '../engineering/demand.ts';
import type { InductionPath } from '../engineering/injectors.ts';
import type { BuildSheet, Limits, Stage } from '../generated/build-sheet.ts';
import type { Change, NewValue } from '../sheet/edit.ts';
import type { FieldPath, Path } from '../sheet/path.ts';
import type { Comparison } from '../units/digits.ts';
import type { Quantity } from '../units/quantity.ts';
import type { Dimension } from '../units/units.ts';
import type { Caution } from './cautions.ts';

export type Severity = 'error' | 'warning' | 'information' | 'hint';

export const areas = {
  engine: 'Engine',
  'throttle-body': 'Throttle body',
  vacuum: 'Vacuum and sensors',
  ignition: 'Ignition',
  'fuel-supply': 'Fuel supply',
  electrical: 'Electrical',
  plan: 'Plan',
  measured: 'Measured against computed',
  paper: 'Paper',
} as const;

export type Area = keyof typeof areas;
export type RuleId = `${Area}/${string}`;

/** A field of the stage, such as `fuel-system.pump` or `stages.boost`, or a place in the sheet. */
export type Address = FieldPath | Path;

/** Fields of the stage with what to write into them. */
export type Settings = Partial<Record<FieldPath, NewValue>>;

/** Another place involved in a finding. */
export type Related = { at: Address; message: string };

/** A way to mend a finding: fields of the stage to set and to remove, or changes at places of the sheet. */
export type Repair = {
  title: string;
  set?: Settings;
  remove?: readonly FieldPath[];
  changes?: readonly Change[];
  /** Whether it may be applied without a choice of the user: nothing is bought and nothing but the sheet changes. */
  safe?: boolean;
  /** The figure whose value before and after belongs in the title. */
  shows?: FigureNode;
};

/** A day a check is made on, as it is told. */
export type Day = 'the coldest, lowest day' | 'the hottest, highest day';

/** What a rule has found in one stage. */
export type Draft = {
  at: Address;
  message: string;
  /** Other places involved. */
  related?: readonly Related[];
  repairs?: readonly Repair[];
  /** The day on which it is so, where it depends on the day. */
  day?: Day;
  /** How far the limit is missed; of several stages the one with the most is told. */
  excess?: number;
  /** Holds at nominal values and fails only at the bad end of the tolerances. */
  onlyAtBadEnd?: boolean;
};

/** A value that is held against a limit; what has a unit is shown in it. */
export type Compared = {
  value: number;
  low?: number | undefined;
  high?: number | undefined;
  dimension: Dimension;
  unit?: string;
};

/** What a rule sees of one stage. What it looks at is remembered, so that a check that could not be made is known. */
export type Situation = {
  readonly values: Partial<BuildSheet>;
  readonly stage: Stage;
  readonly name: string;
  readonly index: number;
  /** The induction with its usual path. */
  readonly induction: Induction;
  readonly path: InductionPath;
  /** A figure, with its bounds where tolerances are given. */
  readonly see: (figure: FigureNode) => Estimate | undefined;
  /** What makes a figure impossible with the values of the sheet, as a sentence. */
  readonly impossible: (figure: FigureNode) => string | undefined;
  /** A fact of the stage. */
  readonly know: <T>(fact: Node<T>) => T | undefined;
  /** The latest reading of everything that was read on the car in this stage, beside its figure. */
  readonly readings: readonly ComparedReading[];
  /** What would explain a reading that is apart from its figure, the likeliest first. */
  readonly explain: (reading: ComparedReading) => readonly Explanation[];
  /** A limit of the sheet or the house, in SI. */
  readonly limit: (name: keyof Limits & string) => number;
  /** Where the text says what holds at a field in this stage. */
  readonly placeOf: (field: FieldPath) => Path;
  /** A figure as text in the units of the sheet, or a quantity of the sheet in its own. */
  readonly show: (value: Estimate | Quantity | undefined) => string;
  /** An SI value as text in the units of the sheet, with no digit that its spread from low to high makes worthless. */
  readonly showValue: (value: number, dimension: Dimension, spread?: number) => string;
  /**
   * A figure or quantity, with its ends where tolerances are given, and an SI limit it is held against, as texts that tell on
   * which side of it the value is.
   */
  readonly compare: (value: Compared, limit: number) => Comparison;
  /** Every stage of the plan, this one included. */
  readonly plan: readonly Situation[];
  /** The last stage up to this one without a blower, by number. */
  readonly natural: number | undefined;
};

type About = {
  id: RuleId;
  title: string;
  severity: Severity;
  /** What happens if nothing is done, and the reason. */
  why: string;
  /** What to look at or measure on the car before anything is changed. */
  inspect: string;
  /** How it is repaired. */
  remedy: string;
  /** Published source with its edition, `common practice`, or `from memory`. */
  source: string;
  /** What can hurt someone during this work, besides what holds for the whole area. */
  cautions?: readonly Caution[];
};

/** A rule checked in every stage; one with `capacity` asks whether a part is large enough for the stage. */
export type StageRule = About & {
  capacity?: true;
  check: (situation: Situation) => Draft | readonly Draft[] | undefined;
};

/** A rule checked once over the whole plan. */
export type PlanRule = About & { checkPlan: (plan: readonly Situation[]) => Draft | readonly Draft[] | undefined };

/** A finding that the check itself tells, from what other rules found or from the silencers. */
export type ToldRule = About & { told: true };

export type Rule = StageRule | PlanRule | ToldRule;

type Miss = { excess: number; onlyAtBadEnd: boolean };

/** A figure or a quantity of the sheet: its nominal value and the ends of its tolerance. */
type Spread = { value: number; low?: number | undefined; high?: number | undefined };

/** How far a figure or quantity is above a limit, at nominal or only at the high end of its tolerance. */
export function above(figure: Spread | undefined, limit: number): Miss | undefined {
  if (!figure) return undefined;
  const slack = Math.abs(limit) * 1e-9;
  if (figure.value > limit + slack) return { excess: figure.value - limit, onlyAtBadEnd: false };
  const high = figure.high ?? figure.value;
  return high > limit + slack ? { excess: high - limit, onlyAtBadEnd: true } : undefined;
}

/** How far a figure or quantity is below a limit, at nominal or only at the low end of its tolerance. */
export function below(figure: Spread | undefined, limit: number): Miss | undefined {
  if (!figure) return undefined;
  const slack = Math.abs(limit) * 1e-9;
  if (figure.value < limit - slack) return { excess: limit - figure.value, onlyAtBadEnd: false };
  const low = figure.low ?? figure.value;
  return low < limit - slack ? { excess: limit - low, onlyAtBadEnd: true } : undefined;
}
