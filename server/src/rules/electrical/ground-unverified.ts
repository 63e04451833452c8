import { pumpVoltage } from '../../analysis/electrical.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'electrical/ground-unverified',
  title: "Pump's ground not verified",
  severity: 'warning',
  why: 'A pump loses as much voltage on its way back as on its way there, and a painted or rusty ground point loses more than all the wire. It then fails on a hot day at full load, and its spot of heat is near the tank.',
  inspect:
    'Find where the ground wire of the pump ends. Scrape the spot: paint, undercoating or rust under the ring terminal is the fault. Then measure from there to the negative post with the pump running.',
  remedy:
    'Run a ground wire of the same size to the battery, or bolt it to bare metal with a toothed washer and paint it over afterwards.',
  source: 'common practice',
  check: ({ values }) => {
    if (values.electrical?.['pump-circuit']?.ground !== 'unverified') return undefined;
    return {
      at: 'electrical.pump-circuit.ground',
      message: "Nobody has verified where the pump's current goes back to the battery.",
      repairs: [
        {
          title: 'Run a ground wire of the same size to the battery',
          set: { 'electrical.pump-circuit.ground': 'wire-to-battery' },
          shows: pumpVoltage,
        },
        {
          title: 'Ground the pump on bare metal of the chassis and measure the drop there',
          set: { 'electrical.pump-circuit.ground': 'chassis' },
        },
      ],
    };
  },
};
