import type { PlanRule } from '../rule.ts';

export const rule: PlanRule = {
  id: 'paper/no-pressure-test',
  title: 'No leak test at working pressure',
  severity: 'warning',
  why: 'A joint that is dry at carburetor pressure can spray at injection pressure, over a hot engine. Run the pump with the engine cold and off, eyes covered, an extinguisher in reach and the battery easy to disconnect. Look along every joint with a lamp and hold dry paper near it; never feel for a leak with a hand, because fuel under pressure goes through skin. Start only when all of it is dry.',
  source: 'common practice',
  checkPlan: (plan) => {
    const handover = plan[0]?.values.handover;
    if (!handover || handover['pressure-test'] === true) return undefined;
    const pressure = plan[0]?.figure('rail-pressure-set');
    return {
      at: 'handover.pressure-test',
      message: `The fuel system has not been leak-tested${pressure ? ` at its working pressure of ${plan[0]?.show(pressure)}` : ' at its working pressure'}. Test it with the engine off, then write it down here.`,
    };
  },
};
