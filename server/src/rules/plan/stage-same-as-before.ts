import type { PlanRule, Situation } from '../../checking/rule.ts';

export const rule: PlanRule = {
  id: 'plan/stage-same-as-before',
  title: 'Stage in which nothing changes',
  severity: 'hint',
  why: 'A stage says what the engine makes and what is changed to get there. One that repeats the stage before it adds nothing to the plan; what was meant may have been left out.',
  inspect: 'Compare the stage with the one before.',
  remedy: 'Write what changes, or take the stage out.',
  source: 'definition',
  checkPlan: (plan) =>
    plan.slice(1).flatMap((situation) => {
      const before = plan[situation.index - 1] as Situation;
      const { stage, index, name } = situation;
      if (!stage.power || stage.changes || said(situation) !== said(before)) return [];
      return [
        {
          at: ['stages', index],
          message: `Stage "${name}" is the same as stage "${before.name}": no power, boost or part differs.`,
          related: [{ at: ['stages', index - 1], message: 'The stage before.' }],
          repairs:
            index === plan.length - 1
              ? [{ title: 'Take the stage out', changes: [{ remove: ['stages', index] }] }]
              : [],
        },
      ];
    }),
};

/** What a stage says of the engine, without its name and cost; quantities by their SI value. */
function said({ stage, induction }: Situation): string {
  const { name, cost, changes, ...rest } = stage;
  return JSON.stringify({ ...rest, induction }, (_, value) =>
    value?.dimension ? [value.value, value.low, value.high] : value,
  );
}
