import type { PlanRule } from '../rule.ts';

export const rule: PlanRule = {
  id: 'paper/fuel-work-by-owner',
  title: 'The owner does the fuel work',
  severity: 'information',
  why: 'Injection fuel is under up to ten times the pressure of a carburetor, and a fitting that weeps becomes a spray that burns. Where local rules keep fuel work to licensed practice, it has to be done there.',
  source: 'common practice; local law decides',
  checkPlan: (plan) => {
    if (plan[0]?.values.handover?.['fuel-work'] !== 'owner') return undefined;
    return {
      at: 'handover.fuel-work',
      message: 'The owner does the fuel work, which local rules may keep to a licensed or qualified workshop.',
      repairs: [{ title: 'Give the fuel work to a licensed workshop', set: { 'handover.fuel-work': 'licensed' } }],
    };
  },
};
