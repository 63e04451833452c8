import type { PlanRule } from '../../checking/rule.ts';

export const rule: PlanRule = {
  id: 'measured/unknown-stage',
  title: 'A reading names a stage that does not exist',
  severity: 'warning',
  why: 'A reading is held against the figures of the stage the car was in. Of a stage that is not in the plan there are none, so nothing is compared.',
  inspect: 'Compare the name with those under `stages`.',
  remedy: 'Write the name as it stands there.',
  source: 'common practice',
  checkPlan: (plan) => {
    const names = plan.map(({ name }) => name);
    return (plan[0]?.values.measured ?? []).flatMap(({ stage }, index) =>
      stage === undefined || stage === null || names.includes(stage)
        ? []
        : [
            {
              at: ['measured', index, 'stage'],
              message: 'No stage of the plan has this name, so the reading is compared with nothing.',
              repairs: names.slice(0, 3).map((name) => ({
                title: `Write "${name}"`,
                changes: [{ set: ['measured', index, 'stage'], to: name }],
              })),
            },
          ],
    );
  },
};
