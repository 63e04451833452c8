import { analyze } from '../analysis/analysis.ts';
import { judge, type Verdict } from '../checking/judge.ts';
import type { Day, Repair, Rule, RuleId, Severity } from '../checking/rule.ts';
import { changedValues } from '../sheet/changed.ts';
import type { Change, NewValue } from '../sheet/edit.ts';
import { type FieldPath, inChanges, stepsOf, valueAt } from '../sheet/path.ts';
import type { Build } from './build.ts';

/** A rule that a value breaks in a stage, with what it says and what else would mend it. */
export type Broken = {
  rule: RuleId;
  title: string;
  severity: Severity;
  stage: string;
  /** The day on which it is broken, where it depends on the day. */
  day?: Day;
  /** Whether it is broken in every stage. */
  isEverywhere: boolean;
  /** The number of that stage. */
  index: number;
  message: string;
  /** Whether it is broken only at the bad end of the sheet's tolerances. */
  onlyAtBadEnd: boolean;
  /** What the rule offers to mend it by. */
  ways: readonly Repair[];
};

/** A build with what the rules say of it, in which values can be tried. */
export type Trials = { build: Build; verdict: Verdict; rules: readonly Rule[] };

export function trialsOf(build: Build, rules: readonly Rule[]): Trials {
  return { build, rules, verdict: judge(build.values, build.plan, build.house, undefined, rules) };
}

/**
 * The errors and warnings that stand on a field, with that field at a value in every stage; nothing where the field does
 * not take the value. Rules that do not look at the field are left out: no value of it mends or breaks them.
 */
export function brokenBy(
  trials: Trials,
  field: FieldPath,
  value: NewValue,
  without: readonly FieldPath[] = [],
): Broken[] | undefined {
  const { build } = trials;
  const removed = without.filter((other) => valueAt(build.values, stepsOf(other)) !== undefined);
  const changes: Change[] = [
    ...removed.map((other) => ({ remove: stepsOf(other) })),
    ...[field, ...without].flatMap((path) => withoutChanges(build, path)),
    { set: stepsOf(field), to: value },
  ];
  return brokenWith(trials, changes)?.map((broken) => ({
    ...broken,
    ways: broken.ways.filter(({ set }) => !set || !(field in set)),
  }));
}

/** The errors and warnings that stand on what changes change, or nothing where a change cannot be made. */
export function brokenWith({ build, verdict, rules }: Trials, changes: readonly Change[]): Broken[] | undefined {
  const values = changedValues(build.values, changes);
  if (!values) return undefined;
  const plan = analyze(values, build.house, build.plan, build.unread, build.assumed);
  const after = judge(values, plan, build.house, verdict, rules);
  return [...after.answers].flatMap(([rule, answers]) => {
    if (rule.severity !== 'error' && rule.severity !== 'warning') return [];
    const before = verdict.answers.get(rule);
    const isEverywhere = answers.length < plan.length || answers.every(({ drafts }) => drafts.length > 0);
    return answers.flatMap((answer, index): Broken[] => {
      const draft = answer.drafts[0];
      if (!draft || answer === before?.[index]) return [];
      const { message, day, repairs = [], onlyAtBadEnd = false } = draft;
      const { id, title, severity } = rule;
      const stage = plan[index]?.name ?? '';
      const about = { rule: id, title, severity, stage, index, isEverywhere, ...(day && { day }) };
      return [{ ...about, message, onlyAtBadEnd, ways: repairs }];
    });
  });
}

/** One part for every stage: what stages change of the field goes. */
function withoutChanges({ values }: Build, field: FieldPath): Change[] {
  const stages = values.stages ?? [];
  return stages.flatMap(({ changes }, index) =>
    valueAt(changes, stepsOf(field)) === undefined ? [] : [{ remove: inChanges(index, field) }],
  );
}
