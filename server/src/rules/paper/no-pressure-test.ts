import { railPressureSet } from '../../analysis/regulator.ts';
import type { PlanRule } from '../../checking/rule.ts';

export const rule: PlanRule = {
  id: 'paper/no-pressure-test',
  title: 'No leak test at working pressure',
  severity: 'warning',
  why: 'A joint that is dry at carburetor pressure can spray at injection pressure, over a hot engine.',
  inspect:
    'Engine cold and off, eyes covered, extinguisher in reach, battery easy to disconnect: run the pump and look along every joint with a lamp, dry paper held near it. Never feel for a leak with a hand; fuel under pressure goes through skin.',
  remedy:
    'Switch off and let the pressure go before anything is tightened. Start only when all of it is dry, look again after the first warm-up, and write the test down with its date.',
  source: 'common practice',
  checkPlan: (plan) => {
    const handover = plan[0]?.values.handover;
    if (!handover || handover['pressure-test'] === true) return undefined;
    const pressure = plan[0]?.see(railPressureSet);
    return {
      at: 'handover.pressure-test',
      message: `The fuel system has not been leak-tested${pressure ? ` at its working pressure of ${plan[0]?.show(pressure)}` : ' at its working pressure'}. Test it with the engine off, then write it down here.`,
    };
  },
};
