import type { StageAnalysis } from '../analysis/analysis.ts';
import type { Figure, FigureId } from '../analysis/figure.ts';
import type { Induction } from '../engineering/demand.ts';
import type { InductionPath } from '../engineering/injectors.ts';
import type { BuildSheet, Limits, Stage } from '../generated/build-sheet.ts';
import type { NewValue } from '../sheet/edit.ts';
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
  paper: 'Paper',
} as const;

export type Area = keyof typeof areas;
export type RuleId = `${Area}/${string}`;

/** A way to mend a finding: fields to set and to remove, by their path in the stage's sheet. */
export type Repair = {
  title: string;
  set?: Record<string, NewValue>;
  remove?: readonly string[];
  /** Whether it may be applied without a choice of the user: nothing is bought and nothing but the sheet changes. */
  safe?: boolean;
  /** The figure whose value before and after belongs in the title. */
  shows?: FigureId;
};

/** What a rule has found in one stage. */
export type Draft = {
  /** Path in the stage's sheet, such as `fuel-system.pump`; `stage.boost` for a field of the stage itself. */
  at: string;
  message: string;
  /** Other places involved. */
  related?: readonly { at: string; message: string }[];
  repairs?: readonly Repair[];
  /** How far the limit is missed; of several stages the one with the most is told. */
  excess?: number;
  /** Holds at nominal values and fails only at the bad end of the tolerances. */
  onlyAtBadEnd?: boolean;
};

/** What a rule sees of one stage. */
export type Situation = {
  values: Partial<BuildSheet>;
  stage: Stage;
  name: string;
  index: number;
  /** The induction with its usual path. */
  induction: Induction;
  path: InductionPath;
  figure: (id: FigureId) => Figure | undefined;
  /** A limit of the sheet or the house, in SI. */
  limit: (name: keyof Limits & string) => number;
  /** A figure or quantity as text in the house's units. */
  show: (value: Figure | Quantity | undefined) => string;
  /** An SI value as text in the house's units. */
  showValue: (value: number, dimension: Dimension) => string;
  /** Every stage of the plan, this one included. */
  plan: readonly StageAnalysis[];
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

/** A rule checked once over the whole plan; its paths are those of the sheet, stages by number: `stages.1.power`. */
export type PlanRule = About & { checkPlan: (plan: readonly Situation[]) => Draft | readonly Draft[] | undefined };

/** A finding that the check itself tells, from what other rules found or from the silencers. */
export type ToldRule = About & { told: true };

export type Rule = StageRule | PlanRule | ToldRule;

type Miss = { excess: number; onlyAtBadEnd: boolean };

/** A figure or a quantity of the sheet: its nominal value and the ends of its tolerance. */
type Spread = { value: number; low?: number; high?: number };

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
