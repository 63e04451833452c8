import type { StageAnalysis } from '../analysis/analysis.ts';
import type { House } from '../sheet/house.ts';
import { type Differences, differencesOf } from './differences.ts';
import type { Draft, Rule, RuleId, StageRule } from './rule.ts';
import { situationsOf } from './situation.ts';
import { Watch } from './watch.ts';

/** A rule or figure that failed in a way no input should be able to cause. */
export type Fault = { where: string; error: unknown };

/**
 * What one asking of a rule gave: what it found, and all it looked at. It may have been asked in an earlier stage, so many
 * stages before, where all it looked at was the same.
 */
export type Asked = { drafts: readonly Draft[]; watch: Watch; later: number; fault?: Fault };

/** The answers of every rule, stage by stage, or one for the whole plan. */
export type Answers = ReadonlyMap<Rule, readonly Asked[]>;

type Plan = readonly StageAnalysis[];
type Check = () => Draft | readonly Draft[] | undefined;

/**
 * Asks rules about a plan. Where nothing that a rule looked at differs, its answer is that of an earlier version of the
 * plan, with as many stages of the same names, or that of the stage before. A rule that looked for something which may
 * stand in an unread part of the text has found nothing, also where it fails for want of it.
 */
export function answersOf(rules: readonly Rule[], plan: Plan, house: House, before?: Before): Answers {
  const { everywhere } = asking(plan, house, before);
  return new Map(rules.flatMap((rule) => ('told' in rule ? [] : [[rule, everywhere(rule)] as const])));
}

type Before = { plan: Plan; answers: Answers };

/** Asks one rule after the other about a plan, or about a single stage of it. */
export type Asking = {
  everywhere: (rule: Rule) => readonly Asked[];
  inStage: (rule: StageRule, index: number) => Asked | undefined;
};

export function asking(plan: Plan, house: House, before?: Before): Asking {
  const watching = { current: new Watch() };
  const situations = situationsOf(plan, house, watching);
  const sinceBefore = plan.map((stage, index) => differencesTo(before?.plan[index], stage));
  const sinceStage = plan.map((stage, index) => differencesTo(plan[index - 1], stage));

  function asked(check: Check, id: RuleId): Asked {
    const watch = new Watch();
    watching.current = watch;
    try {
      const drafts = listOf(check());
      return { drafts: watch.isUnread ? [] : drafts, watch, later: 0 };
    } catch (error) {
      return { drafts: [], watch, later: 0, ...(!watch.isUnread && { fault: { where: id, error } }) };
    }
  }

  function stillHeld(known: Asked | undefined): Asked | undefined {
    return known?.watch.holdsIn(plan, sinceBefore, known.later) ? known : undefined;
  }

  function asInStageBefore(known: Asked | undefined): Asked | undefined {
    if (!known || known.watch.isOfOneStage) return undefined;
    const later = known.later + 1;
    return known.watch.holdsIn(plan, sinceStage, later) ? { ...known, later } : undefined;
  }

  function inStage(rule: StageRule, index: number, stageBefore?: Asked): Asked | undefined {
    const situation = situations[index];
    const known = stillHeld(before?.answers.get(rule)?.[index]) ?? asInStageBefore(stageBefore);
    return known ?? (situation && asked(() => rule.check(situation), rule.id));
  }

  function everywhere(rule: Rule): readonly Asked[] {
    if ('told' in rule) return [];
    if ('checkPlan' in rule) {
      return [stillHeld(before?.answers.get(rule)?.[0]) ?? asked(() => rule.checkPlan(situations), rule.id)];
    }
    const stages: Asked[] = [];
    for (const index of plan.keys()) stages.push(inStage(rule, index, stages.at(-1)) as Asked);
    return stages;
  }

  return { everywhere, inStage };
}

const NONE: Differences = { fields: new Set(), isWhole: true };

function differencesTo(one: StageAnalysis | undefined, other: StageAnalysis): Differences {
  return one ? differencesOf(one.sheet, other.sheet) : NONE;
}

function listOf(drafts: Draft | readonly Draft[] | undefined): readonly Draft[] {
  if (drafts === undefined) return [];
  return Array.isArray(drafts) ? drafts : [drafts as Draft];
}
