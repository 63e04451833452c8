import type { StageRule } from '../../checking/rule.ts';
import { betterPlaces } from '../../remedies/pump-placement.ts';
import { distanceMiss, heightMiss, marginMiss } from '../../remedies/suction-side.ts';

export const rule: StageRule = {
  id: 'fuel-supply/placement-order',
  title: 'The pump is external, the last choice',
  severity: 'information',
  why: 'The order of the trade is: in the tank, a drop-in tank module, a surge tank fed by a low-pressure pump, and an external pump last. A pump that sits in fuel never has to suck, and it is cooled and quiet.',
  inspect:
    'After an hour on a hot day listen to the pump and watch the rail gauge: a rising whine and a shaking needle are vapor.',
  remedy: 'Move the pump into the tank or into a module the next time the tank is out.',
  source: 'common practice',
  check: (situation) => {
    const { values } = situation;
    if (values['fuel-system']?.pump?.placement !== 'external') return undefined;
    const use = values.vehicle?.use;
    const isHeard = use === 'street' || use === 'show';
    if (isHeard || heightMiss(situation) || distanceMiss(situation) || marginMiss(situation)) return undefined;
    return {
      at: 'fuel-system.pump.placement',
      message: 'The pump is external, so it has to suck its fuel.',
      repairs: betterPlaces(values),
    };
  },
};
