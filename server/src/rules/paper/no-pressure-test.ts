import type { PlanRule } from '../rule.ts';

export const rule: PlanRule = {
  id: 'paper/no-pressure-test',
  title: 'No leak test at working pressure',
  severity: 'warning',
  why: 'A joint that is dry at carburetor pressure can spray at injection pressure, over a hot engine. Run the pump with the engine off, look and feel along every joint, and start only when all of it is dry.',
  source: 'common practice',
  checkPlan: (plan) => {
    const handover = plan[0]?.values.handover;
    if (!handover || handover['pressure-test'] === true) return undefined;
    const pressure = plan[0]?.figure('rail-pressure-set');
    return {
      at: 'handover.pressure-test',
      message: `The fuel system has not been leak-tested at its working pressure${pressure ? ` of ${plan[0]?.show(pressure)}` : ''}.`,
      repairs: [{ title: 'Leak-test it with the engine off, and note it', set: { 'handover.pressure-test': true } }],
    };
  },
};
