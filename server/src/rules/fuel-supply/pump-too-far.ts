import { suctionMargin } from '../../analysis/suction.ts';
import type { StageRule } from '../../checking/rule.ts';
import { betterPlaces } from '../../remedies/pump-placement.ts';
import { roundedDown } from '../../remedies/size.ts';
import {
  belowOutlet,
  distanceMiss,
  headLost,
  heightMiss,
  lowerPlace,
  marginMiss,
  marginSentence,
  suctionLength,
} from '../../remedies/suction-side.ts';

/** Suction head, m, over the bare need when the pump is lowered too. Common practice. */
const ROOM = 0.02;

export const rule: StageRule = {
  id: 'fuel-supply/pump-too-far',
  title: 'An external pump is too far from the tank',
  severity: 'warning',
  why: 'Every inch of suction line costs pressure at the inlet, picks up heat and holds vapor that the pump must clear after a hot stop. A pump belongs beside the tank, with the long line on its pressure side.',
  inspect:
    'Measure the line from tank outlet to pump inlet along its run, and see whether it climbs or passes the exhaust.',
  remedy: 'Move the pump to the tank, or into it.',
  source: 'common practice',
  cautions: ['used-tank'],
  check: (situation) => {
    const { values, limit, compare } = situation;
    const length = suctionLength({ values });
    const miss = distanceMiss(situation);
    if (!length || !miss) return undefined;
    const most = limit('suction-distance');
    const shown = compare(length, most);
    const field = values['fuel-system']?.suction?.length ? 'fuel-system.suction.length' : 'fuel-system.pump.distance';
    const [inTank, module, surgeTank] = betterPlaces(values);
    const near = roundedDown(most, length);
    const missing = (marginMiss(situation)?.excess ?? 0) - headLost(situation) * (1 - most / length.value);
    const lower = missing > 0 ? lowerPlace(situation, missing + ROOM) : undefined;
    return {
      at: field,
      message: `The pump sucks through ${shown.value} of line, over the limit of ${shown.limit}.${heightMiss(situation) ? '' : marginSentence(situation)}`,
      related: [{ at: 'fuel-system.pump.placement', message: 'Only a pump outside the tank has to suck.' }],
      ...miss,
      repairs: [
        inTank,
        module,
        {
          title: `Move the pump to within ${near} of the tank${lower ? `, ${belowOutlet(lower)}` : ''}`,
          set: {
            [field]: near,
            ...(lower && { 'fuel-system.pump.height-above-outlet': lower }),
          },
          shows: suctionMargin,
        },
        surgeTank,
      ],
    };
  },
};
