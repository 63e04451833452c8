import type { PlanRule } from '../../checking/rule.ts';
import { inStage } from '../../sheet/path.ts';

export const rule: PlanRule = {
  id: 'plan/stage-without-name',
  title: 'Stage without a name',
  severity: 'hint',
  why: 'Findings, tables and `silence` entries speak of a stage by its name. Without one the reader has to count.',
  inspect: 'Read the names of the stages.',
  remedy: 'Name the stage by what is done in it.',
  source: 'common practice',
  checkPlan: (plan) => {
    if (plan.length < 2) return [];
    const names = plan.map(({ stage }) => stage.name);
    return plan
      .filter(({ stage }) => !stage.name)
      .map(({ stage, index, induction }) => {
        const isNewBlower = induction !== 'natural' && plan[index - 1]?.induction !== induction;
        const wish = index === 0 ? 'now' : isNewBlower ? induction : (stage.power?.text ?? `step ${index}`);
        const name = names.includes(wish) ? `step ${index}` : wish;
        return {
          at: ['stages', index],
          message: `Stage ${index + 1} of ${plan.length} has no name.`,
          repairs: [{ title: `Call it "${name}"`, changes: [{ set: inStage(index, 'stages.name'), to: name }] }],
        };
      });
  },
};
