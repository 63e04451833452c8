import type { Draft, StageRule } from '../../checking/rule.ts';
import { circuitsOf } from '../../remedies/circuits.ts';

export const rule: StageRule = {
  id: 'electrical/ground-unverified',
  title: 'Ground not verified',
  severity: 'warning',
  why: 'A pump or fan loses as much voltage on its way back as on its way there, and a painted or rusty ground point loses more than all the wire. It then fails on a hot day at full load, and its spot of heat is near the tank.',
  inspect:
    'Find where the ground wire ends. Scrape the spot: paint, undercoating or rust under the ring terminal is the fault. Then measure from there to the negative post under load.',
  remedy:
    'Run a ground wire of the same size to the battery, or bolt it to bare metal with a toothed washer and paint it over afterwards.',
  source: 'common practice',
  check: (situation) =>
    circuitsOf(situation).flatMap(({ fields, figures, noun, path }): Draft[] => {
      if (fields.ground !== 'unverified') return [];
      return [
        {
          at: `${path}.ground`,
          message: `Nobody has verified where the ${noun}'s current goes back to the battery.`,
          repairs: [
            {
              title: 'Run a ground wire of the same size to the battery',
              set: { [`${path}.ground`]: 'wire-to-battery' },
              shows: figures.voltage,
            },
            {
              title: `Ground the ${noun} on bare metal of the chassis and measure the drop there`,
              set: { [`${path}.ground`]: 'chassis' },
            },
          ],
        },
      ];
    }),
};
