import type { PlanRule } from '../rule.ts';

export const rule: PlanRule = {
  id: 'paper/no-extinguisher',
  title: 'No fire extinguisher at hand',
  severity: 'warning',
  why: 'The first start is when a forgotten fitting shows, with fuel under pressure beside a hot exhaust. A fire is small only for the first seconds.',
  source: 'common practice',
  checkPlan: (plan) => {
    const handover = plan[0]?.values.handover;
    if (!handover || handover.extinguisher === true) return undefined;
    return {
      at: 'handover.extinguisher',
      message: 'No fire extinguisher is at hand for the first start and in the vehicle.',
      repairs: [
        { title: 'Get one rated for liquid fuel and keep it in reach', set: { 'handover.extinguisher': true } },
      ],
    };
  },
};
