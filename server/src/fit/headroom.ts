import { boostedPowerEstimate } from '../analysis/boost.ts';
import { powerCoveredLow } from '../analysis/idle-injection.ts';
import { answersOf } from '../checking/ask.ts';
import type { Checked } from '../checking/checked.ts';
import type { OpenCheck } from '../checking/finding.ts';
import { findingsOf, rulesIn } from '../checking/judge.ts';
import type { Rule, RuleId, StageRule } from '../checking/rule.ts';
import { changedValues } from '../sheet/changed.ts';
import type { Change } from '../sheet/edit.ts';
import { type FieldPath, inStage } from '../sheet/path.ts';
import type { Steps } from '../text/steps.ts';
import type { Quantity } from '../units/quantity.ts';
import { findUnit } from '../units/units.ts';
import type { Build } from './build.ts';
import { FieldsRead } from './fields-read.ts';
import { Ground } from './ground.ts';

/** What gives way: a rule that is broken, and what it says. */
export type Broken = { rule: RuleId; title: string; message: string; onlyAtBadEnd: boolean };

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

/** What is raised, in the stage that is looked at. */
const CLIMBED: readonly FieldPath[] = ['stages.power', 'stages.boost'];

/**
 * The ladder of every stage that claims a power: a natural one raises the claim, a boosted one its boost, and its power by
 * the estimate of that boost. Rules about the claim itself are left out.
 */
export function* headroomOf({ sheet, plan, house, verdict }: Checked, rules: readonly Rule[]): Steps<Headroom[]> {
  const { values, unread } = sheet;
  const build: Build = { values, plan, house, assumed: [], unread };
  const isAbout = (rule: Rule) => ('capacity' in rule && rule.capacity) || rule.id === KNOCK;
  const about = rulesIn(house, rules.filter(isAbout));
  const answers = answersOf(about, plan, house, verdict);
  const { open } = findingsOf(values, plan, house, answers);
  const read = new FieldsRead(CLIMBED);
  const ground = new Ground(build, answers, read, read.bitsOf(CLIMBED));
  const found: Headroom[] = [];
  for (const { index, name, sheet: stage } of plan) {
    if (yield) break;
    const { power } = stage.stage;
    if (!power) continue;
    const ladder = new Climb(build, ground, index, power).ladder();
    const least = plan[index]?.estimate(powerCoveredLow)?.value;
    found.push({
      stage: name,
      power: power.value,
      ...ladder,
      open: open.filter(({ stages }) => stages.includes(index)),
      ...(least !== undefined && { downTo: least }),
    });
  }
  return found;
}

/** A point of the climb: the power there, W, and what is broken, rule by rule as it is asked for. */
type Point = { share: number; power: number; broken: (rule: StageRule) => Broken | undefined };

/** The climb of one stage, by shares from 0 at the claim to 1 at the top; each point is looked at once. */
class Climb {
  private readonly points = new Map<number, Point>();
  private readonly rules: readonly StageRule[];

  constructor(
    private readonly build: Build,
    private readonly ground: Ground,
    private readonly index: number,
    private readonly claimed: Quantity,
  ) {
    this.rules = ground.rules.filter(
      (rule) => 'check' in rule && (rule.severity === 'error' || rule.severity === 'warning'),
    ) as StageRule[];
  }

  /** What gives way at the claim and above it, the nearest first, and how far was looked. */
  ladder(): Pick<Headroom, 'rungs' | 'already' | 'upTo'> {
    const marks = Array.from({ length: STEPS + 1 }, (_, step) => this.at(step / STEPS));
    const [claim, ...above] = marks as [Point, ...Point[]];
    const already = this.rules.flatMap((rule) => claim.broken(rule) ?? []);
    const left = this.rules.filter((rule) => !claim.broken(rule));
    const rules = new Set(above.flatMap((mark) => left.filter((rule) => mark.broken(rule))));
    const rungs = [...rules].flatMap((rule): Rung[] => {
      const any = this.first(marks, (point) => point.broken(rule) !== undefined);
      const nominal = this.first(marks, (point) => point.broken(rule)?.onlyAtBadEnd === false);
      const main = nominal ?? any;
      const broken = main?.broken(rule);
      if (!main || !broken) return [];
      return [{ power: main.power, broken, ...(any && any.share < main.share && { atBadEnd: any.power }) }];
    });
    const upTo = marks.at(-1)?.power ?? this.claimed.value;
    return { rungs: rungs.toSorted((one, other) => one.power - other.power), already, upTo };
  }

  /** Where something first holds on the climb: the point just past it. */
  private first(marks: readonly Point[], is: (point: Point) => boolean): Point | undefined {
    const index = marks.findIndex(is);
    let [kept, lost] = [marks[index - 1], marks[index]];
    if (!kept || !lost) return undefined;
    for (let step = 0; step < SEARCH; step++) {
      const middle = this.at((kept.share + lost.share) / 2);
      if (is(middle)) lost = middle;
      else kept = middle;
    }
    return lost;
  }

  private at(share: number): Point {
    let point = this.points.get(share);
    if (!point) {
      point = this.pointAt(share);
      this.points.set(share, point);
    }
    return point;
  }

  private pointAt(share: number): Point {
    const { build, ground, index } = this;
    const { power, changes } = this.raised(share);
    const values = changedValues(build.values, changes);
    const ask = values && ground.asking(ground.plan(values));
    const known = new Map<StageRule, Broken | undefined>();
    const broken = (rule: StageRule) => {
      const asked = ask?.inStage(rule, index);
      const isOther = asked !== ground.answers.get(rule)?.[index];
      const draft = isOther ? asked?.drafts[0] : undefined;
      const { id, title } = rule;
      return draft && { rule: id, title, message: draft.message, onlyAtBadEnd: draft.onlyAtBadEnd ?? false };
    };
    return {
      share,
      power,
      broken: (rule) => {
        if (!known.has(rule)) known.set(rule, broken(rule));
        return known.get(rule);
      },
    };
  }

  private raised(share: number): { power: number; changes: readonly Change[] } {
    const { build, ground, index, claimed } = this;
    const stage = build.plan[index];
    const boost = stage?.sheet.stage.boost;
    const estimate = stage?.estimate(boostedPowerEstimate)?.value;
    const set = (field: 'stages.power' | 'stages.boost', to: string) => ({ set: inStage(index, field), to });
    const powerOf = (watts: number) => set('stages.power', writtenAs(claimed, watts));
    if (!boost || !estimate) {
      const power = claimed.value * MOST_POWER ** share;
      return { power, changes: [powerOf(power)] };
    }
    const change = set('stages.boost', writtenAs(boost, boost.value * MOST_BOOST ** share));
    const values = changedValues(build.values, [change]);
    const raised = values && ground.plan(values)[index]?.estimate(boostedPowerEstimate)?.value;
    const power = (claimed.value * (raised ?? estimate)) / estimate;
    return { power, changes: [change, powerOf(power)] };
  }
}

/** An SI value as the sheet would write it in the unit of a quantity, to the last digit. */
function writtenAs({ dimension, unit }: Quantity, value: number): string {
  const { factor = 1, offset = 0 } = findUnit(dimension, unit) ?? {};
  return `${(value - offset) / factor} ${unit}`;
}
