import { analyze } from '../analysis/analysis.ts';
import { boostedPowerEstimate } from '../analysis/boost.ts';
import { powerCoveredLow } from '../analysis/idle-injection.ts';
import type { Checked } from '../checking/checked.ts';
import type { OpenCheck } from '../checking/finding.ts';
import type { Rule } from '../checking/rule.ts';
import { changedValues } from '../sheet/changed.ts';
import type { Change } from '../sheet/edit.ts';
import { inStage } from '../sheet/path.ts';
import type { Steps } from '../text/steps.ts';
import type { Quantity } from '../units/quantity.ts';
import { findUnit } from '../units/units.ts';
import type { Build } from './build.ts';
import { type Broken, brokenWith, type Trials, trialsOf } from './trials.ts';

/** A power, W, from which on a rule about a part's capacity is broken. */
export type Rung = { power: number; broken: Broken; atBadEnd?: number };

/** How far the parts of a stage go. */
export type Headroom = {
  stage: string;
  /** The power claimed, W. */
  power: number;
  /** What gives way above it, the nearest first. */
  rungs: readonly Rung[];
  /** What gives way already. */
  already: readonly Broken[];
  /** What could not be checked for want of fields, so that nothing is said of it. */
  open: readonly OpenCheck[];
  /** The most power that was looked at, W. */
  upTo: number;
  /** The least power the injectors cover, W, where it is known. */
  downTo?: number;
};

/** How many times the claimed power, or boost, is looked through. */
const MOST_POWER = 3;
const MOST_BOOST = 5;
/** Steps of the climb, and of the search between two of them. */
const STEPS = 12;
const SEARCH = 9;

/** Rules that are no part's capacity and are climbed all the same: a rung of its own. */
const KNOCK = 'engine/knock-likely';

/**
 * The ladder of every stage that claims a power: a natural one raises the claim, a boosted one its boost, and its power by
 * the estimate of that boost. Rules about the claim itself are left out.
 */
export function* headroomOf({ sheet, plan, house }: Checked, rules: readonly Rule[]): Steps<Headroom[]> {
  const build: Build = { values: sheet.values, plan, house, assumed: [], unread: sheet.unread };
  const about = rules.filter((rule) => ('capacity' in rule && rule.capacity) || rule.id === KNOCK);
  const trials = trialsOf(build, about);
  const found: Headroom[] = [];
  for (const { index, name, sheet: stage } of plan) {
    if (yield) break;
    const { power } = stage.stage;
    if (power) found.push(ladderOf(trials, index, name, power));
  }
  return found;
}

/** A point of the climb, from 0 at the claim to 1 at the top. */
type Climb = (share: number) => { power: number; changes: readonly Change[] };

/** A point of the climb with what is broken there. */
type Mark = { share: number; power: number; broken: readonly Broken[] };

function ladderOf(trials: Trials, index: number, stage: string, claimed: Quantity): Headroom {
  const climb = climbOf(trials.build, index, claimed);
  const at = (share: number): Mark => {
    const { power, changes } = climb(share);
    return { share, power, broken: brokenWith(trials, changes)?.filter((one) => one.index === index) ?? [] };
  };
  const marks = Array.from({ length: STEPS + 1 }, (_, step) => at(step / STEPS));
  const already = marks[0]?.broken ?? [];
  const isNew = ({ rule }: Broken) => !already.some((one) => one.rule === rule);
  const names = new Set(marks.flatMap(({ broken }) => broken.filter(isNew).map(({ rule }) => rule)));
  const rungs = [...names].flatMap((rule): Rung[] => {
    const any = firstMark(marks, at, (one) => one.rule === rule);
    const nominal = firstMark(marks, at, (one) => one.rule === rule && !one.onlyAtBadEnd);
    const main = nominal ?? any;
    const broken = main?.broken.find((one) => one.rule === rule);
    if (!main || !broken) return [];
    return [{ power: main.power, broken, ...(any && any.share < main.share && { atBadEnd: any.power }) }];
  });
  const least = trials.build.plan[index]?.estimate(powerCoveredLow)?.value;
  return {
    stage,
    power: claimed.value,
    rungs: rungs.toSorted((one, other) => one.power - other.power),
    already,
    open: trials.verdict.open.filter(({ stages }) => stages.includes(index)),
    upTo: marks.at(-1)?.power ?? claimed.value,
    ...(least !== undefined && { downTo: least }),
  };
}

/** Where something is first broken on the climb: the point just past it. */
function firstMark(
  marks: readonly Mark[],
  at: (share: number) => Mark,
  is: (broken: Broken) => boolean,
): Mark | undefined {
  const index = marks.findIndex(({ broken }) => broken.some(is));
  let [kept, lost] = [marks[index - 1], marks[index]];
  if (!kept || !lost) return undefined;
  for (let step = 0; step < SEARCH; step++) {
    const middle = at((kept.share + lost.share) / 2);
    if (middle.broken.some(is)) lost = middle;
    else kept = middle;
  }
  return lost;
}

function climbOf(build: Build, index: number, claimed: Quantity): Climb {
  const stage = build.plan[index];
  const boost = stage?.sheet.stage.boost;
  const estimate = stage?.estimate(boostedPowerEstimate)?.value;
  const set = (field: 'stages.power' | 'stages.boost', to: string) => ({ set: inStage(index, field), to });
  const powerOf = (watts: number) => set('stages.power', writtenAs(claimed, watts));
  if (!boost || !estimate) {
    return (share) => {
      const power = claimed.value * MOST_POWER ** share;
      return { power, changes: [powerOf(power)] };
    };
  }
  return (share) => {
    const change = set('stages.boost', writtenAs(boost, boost.value * MOST_BOOST ** share));
    const values = changedValues(build.values, [change]);
    const plan = values && analyze(values, build.house, build.plan, build.unread, build.assumed);
    const raised = plan?.[index]?.estimate(boostedPowerEstimate)?.value ?? estimate;
    const power = (claimed.value * raised) / estimate;
    return { power, changes: [change, powerOf(power)] };
  };
}

/** An SI value as the sheet would write it in the unit of a quantity, to the last digit. */
function writtenAs({ dimension, unit }: Quantity, value: number): string {
  const { factor = 1, offset = 0 } = findUnit(dimension, unit) ?? {};
  return `${(value - offset) / factor} ${unit}`;
}
