import { suctionMargin } from '../../analysis/suction.ts';
import type { StageRule } from '../../checking/rule.ts';
import { betterPlaces } from '../../remedies/pump-placement.ts';
import { belowOutlet, heightMiss, lowerPlace, marginMiss, marginSentence } from '../../remedies/suction-side.ts';

/** How far under the limit a lowered pump is put, m, so that it floods by itself. Common practice. */
const BELOW = 0.05;

export const rule: StageRule = {
  id: 'fuel-supply/pump-above-outlet',
  title: 'An external pump sits above the tank outlet',
  severity: 'error',
  why: 'An electric fuel pump pushes well and lifts badly: above the outlet it has to pull fuel up, which takes away the little pressure that keeps hot fuel from boiling at its inlet. It then loses prime, runs dry and fails, usually on the hottest day.',
  inspect:
    'Car level, string level from the tank outlet to the pump. With the line off, fuel should run to the pump by itself; catch it.',
  remedy: 'Into the tank or a module. Where it must stay outside, below the outlet and beside the tank.',
  source: 'common practice; net positive suction head by the definition of ISO 17769-1:2012',
  cautions: ['used-tank'],
  check: (situation) => {
    const { values, limit, compare } = situation;
    const height = values['fuel-system']?.pump?.['height-above-outlet'];
    const miss = heightMiss(situation);
    if (!height || !miss) return undefined;
    const most = limit('suction-height');
    const shown = compare(height, most);
    const [inTank, module, surgeTank] = betterPlaces(values);
    const missing = marginMiss(situation)?.excess ?? 0;
    const lower = lowerPlace(situation, Math.max(height.value - most + BELOW, missing));
    return {
      at: 'fuel-system.pump.height-above-outlet',
      message: `The external pump sits ${shown.value} above the tank outlet, over the limit of ${shown.limit}.${marginSentence(situation)}`,
      related: [{ at: 'fuel-system.pump.placement', message: 'Only a pump outside the tank has to suck.' }],
      ...miss,
      repairs: [
        inTank,
        module,
        ...(lower
          ? [
              {
                title: `Lower the pump to ${belowOutlet(lower)}`,
                set: { 'fuel-system.pump.height-above-outlet': lower },
                shows: suctionMargin,
              } as const,
            ]
          : []),
        surgeTank,
      ],
    };
  },
};
