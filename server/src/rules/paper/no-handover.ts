import type { PlanRule } from '../../checking/rule.ts';
import { missingSections } from '../../remedies/main-sections.ts';

export const rule: PlanRule = {
  id: 'paper/no-handover',
  title: 'Nothing is written down for the handover',
  severity: 'hint',
  why: 'Before fuel is pumped the first time, somebody has to test for leaks and have an extinguisher at hand, and the owner has to be told what the law leaves to the local authority. A list that is ticked off is not forgotten.',
  inspect: 'Go through the list with the owner, beside the car.',
  remedy: 'Add the list, and tick off what was done and told, each by whoever did it.',
  source: 'common practice',
  checkPlan: (plan) => {
    const isComplete = missingSections(plan).length === 0;
    if (!isComplete || plan[0]?.values.handover) return undefined;
    return {
      at: 'handover',
      message:
        'The sheet is complete except for the handover: road-use notice, who does the fuel and the electrical work, leak test, extinguisher.',
      repairs: [
        {
          title: 'Add the list with nothing ticked off',
          set: {
            'handover.road-use-notice': false,
            'handover.pressure-test': false,
            'handover.extinguisher': false,
          },
        },
      ],
    };
  },
};
