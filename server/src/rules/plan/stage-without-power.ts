import type { PlanRule } from '../../checking/rule.ts';
import { inStage } from '../../sheet/path.ts';

export const rule: PlanRule = {
  id: 'plan/stage-without-power',
  title: 'Stage without a power',
  severity: 'information',
  why: 'Injectors, pump and throttle body are sized by the power of each stage. A stage without one is not checked, and a part too small for it is not seen: write down what the stage is meant to make.',
  inspect: 'Ask what the engine is meant to make in this stage.',
  remedy: 'Write the power at the crank, without nitrous.',
  source: 'definition',
  checkPlan: (plan) => {
    if (!plan.some(({ stage }) => stage.power)) return [];
    return plan
      .filter(({ stage }) => !stage.power)
      .map(({ index, name }) => {
        const before = plan.slice(0, index).findLast(({ stage }) => stage.power)?.stage.power;
        return {
          at: ['stages', index],
          message: `Stage "${name}" states no power, so nothing is sized for it.`,
          repairs: before
            ? [
                {
                  title: `Keep the ${before.text} of the stage before`,
                  changes: [{ set: inStage(index, 'stages.power'), to: before.text }],
                },
              ]
            : [],
        };
      });
  },
};
