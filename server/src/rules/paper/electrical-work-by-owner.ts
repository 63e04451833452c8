import type { PlanRule } from '../rule.ts';

export const rule: PlanRule = {
  id: 'paper/electrical-work-by-owner',
  title: 'The owner does the electrical work',
  severity: 'information',
  why: 'A pump circuit carries enough current to set a wiring harness on fire, and it runs beside the fuel. Where local rules keep electrical work to licensed practice, it has to be done there.',
  source: 'common practice; local law decides',
  checkPlan: (plan) => {
    if (plan[0]?.values.handover?.['electrical-work'] !== 'owner') return undefined;
    return {
      at: 'handover.electrical-work',
      message: 'The owner does the electrical work, which local rules may keep to a licensed or qualified workshop.',
      repairs: [
        { title: 'Give the electrical work to a licensed workshop', set: { 'handover.electrical-work': 'licensed' } },
      ],
    };
  },
};
