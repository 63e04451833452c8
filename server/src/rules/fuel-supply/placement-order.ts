import { betterPlaces } from '../pump-placement.ts';
import type { StageRule } from '../rule.ts';
import { distanceMiss, heightMiss, marginMiss } from '../suction-side.ts';

export const rule: StageRule = {
  id: 'fuel-supply/placement-order',
  title: 'The pump is in-line, the last choice',
  severity: 'information',
  why: 'The order of the trade is: in the tank, a drop-in tank module, a surge tank fed by a low-pressure pump, and in-line last. Only a pump that stands in fuel never has to suck, and it is cooled and quiet.',
  source: 'common practice',
  check: (situation) => {
    const { values } = situation;
    if (values['fuel-system']?.pump?.placement !== 'external') return undefined;
    const use = values.vehicle?.use;
    const isHeard = use === 'street' || use === 'show';
    if (isHeard || heightMiss(situation) || distanceMiss(situation) || marginMiss(situation)) return undefined;
    return {
      at: 'fuel-system.pump.placement',
      message: 'The pump is in-line, outside the tank, and has to suck its fuel.',
      repairs: betterPlaces(values),
    };
  },
};
