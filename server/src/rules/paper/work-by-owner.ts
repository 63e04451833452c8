import type { PlanRule } from '../../checking/rule.ts';

export const rule: PlanRule = {
  id: 'paper/work-by-owner',
  title: 'The owner does fuel or electrical work',
  severity: 'information',
  why: 'A fitting that weeps at injection pressure becomes a spray that burns, and a pump circuit carries enough current to set a harness on fire beside it. Local codes may keep such work to a licensed or qualified workshop; where they allow the owner to do it, have it checked before the first start.',
  inspect: 'Ask the local authority who may work on fuel lines and on electrics.',
  remedy:
    'Where the owner may do it, have it checked before the first start; where not, give it to a licensed workshop.',
  source: 'common practice; local law decides',
  checkPlan: (plan) => {
    const { 'fuel-work': fuel, 'electrical-work': electrical } = plan[0]?.values.handover ?? {};
    const work = [...(fuel === 'owner' ? ['fuel'] : []), ...(electrical === 'owner' ? ['electrical'] : [])];
    if (work.length === 0) return undefined;
    return {
      at: fuel === 'owner' ? 'handover.fuel-work' : 'handover.electrical-work',
      message: `The owner does the ${work.join(' and ')} work. Ask the local authority whether that is allowed, and have it checked before the first start.`,
    };
  },
};
