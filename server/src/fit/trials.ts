import { type Answers, answersOf } from '../checking/ask.ts';
import { rulesIn, type Verdict } from '../checking/judge.ts';
import type { Day, Repair, Rule, RuleId, Severity } from '../checking/rule.ts';
import { changedValues } from '../sheet/changed.ts';
import type { Change, NewValue } from '../sheet/edit.ts';
import { type FieldPath, inChanges, stepsOf, valueAt } from '../sheet/path.ts';
import type { Build } from './build.ts';
import { FieldsRead } from './fields-read.ts';
import { Ground } from './ground.ts';

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
  message: string;
  /** What the rule offers to mend it by. */
  ways: readonly Repair[];
};

/** A build with what the rules say of it, in which values of one field after the other are tried. */
export class Trials {
  private readonly answers: Answers;
  private readonly grounds = new Map<string, Ground>();

  /** @param before what the rules say of the sheet itself */
  constructor(
    readonly build: Build,
    rules: readonly Rule[],
    before?: Verdict,
  ) {
    const grave = rules.filter(({ severity }) => severity === 'error' || severity === 'warning');
    this.answers = answersOf(rulesIn(build.house, grave), build.plan, build.house, before);
  }

  /** What trials of these fields start from. */
  on(fields: readonly FieldPath[]): Ground {
    const key = fields.join(' ');
    const read = new FieldsRead(fields);
    const ground = this.grounds.get(key) ?? new Ground(this.build, this.answers, read, read.bitsOf(fields));
    this.grounds.set(key, ground);
    return ground;
  }
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
  const fields = [field, ...without];
  const removed = without.filter((other) => valueAt(build.values, stepsOf(other)) !== undefined);
  const changes: Change[] = [
    ...removed.map((other) => ({ remove: stepsOf(other) })),
    ...fields.flatMap((path) => withoutChanges(build, path)),
    { set: stepsOf(field), to: value },
  ];
  const values = changedValues(build.values, changes);
  if (!values) return undefined;
  const ground = trials.on(fields);
  const plan = ground.plan(values);
  const ask = ground.asking(plan);
  const broken = ground.rules.flatMap((rule): Broken[] => {
    const answers = ask.everywhere(rule);
    const isEverywhere = answers.length < plan.length || answers.every(({ drafts }) => drafts.length > 0);
    return answers.flatMap((answer, index): Broken[] => {
      const draft = answer.drafts[0];
      if (!draft || !ground.standsOn(rule, index)) return [];
      const { message, day, repairs = [] } = draft;
      const { id, title, severity } = rule;
      const stage = plan[index]?.name ?? '';
      const ways = repairs.filter(({ set }) => !set || !(field in set));
      return [{ rule: id, title, severity, stage, isEverywhere, ...(day && { day }), message, ways }];
    });
  });
  ground.gather(plan);
  return broken;
}

/** One part for every stage: what stages change of the field goes. */
function withoutChanges({ values }: Build, field: FieldPath): Change[] {
  const stages = values.stages ?? [];
  return stages.flatMap(({ changes }, index) =>
    valueAt(changes, stepsOf(field)) === undefined ? [] : [{ remove: inChanges(index, field) }],
  );
}
