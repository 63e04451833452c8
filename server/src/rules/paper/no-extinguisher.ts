import type { PlanRule } from '../../checking/rule.ts';

export const rule: PlanRule = {
  id: 'paper/no-extinguisher',
  title: 'No fire extinguisher at hand',
  severity: 'warning',
  why: 'The first start is when a forgotten fitting shows, with fuel under pressure beside a hot exhaust. A fire is small only for the first seconds. Keep one in reach that is rated for liquid fuel, class B, and may be used on live wires.',
  inspect: 'Pressure gauge and date on the extinguisher, and where it hangs: reachable from outside the car.',
  remedy:
    'Get one rated for liquid fuel that may be used on live wires, and keep it in reach for the first start and in the vehicle.',
  source: 'common practice; fire classes by NFPA 10 and EN 2:1992, from memory',
  checkPlan: (plan) => {
    const handover = plan[0]?.values.handover;
    if (!handover || handover.extinguisher === true) return undefined;
    return {
      at: 'handover.extinguisher',
      message:
        'No fire extinguisher is noted for the first start. Get one rated for liquid fuel, keep it in reach, and write it down here.',
    };
  },
};
