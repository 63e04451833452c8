import { vaporKind } from '../../analysis/boiling.ts';
import { suctionMargin } from '../../analysis/suction.ts';
import type { Repair, Situation, StageRule } from '../../checking/rule.ts';
import { surelyBoils } from '../../remedies/boiling.ts';
import { boresAbove } from '../../remedies/bore.ts';
import { betterPlaces } from '../../remedies/pump-placement.ts';
import {
  belowOutlet,
  distanceMiss,
  headLost,
  heightMiss,
  lowerPlace,
  marginMiss,
  marginSentence,
} from '../../remedies/suction-side.ts';

export const rule: StageRule = {
  id: 'fuel-supply/suction-margin',
  title: 'Hot fuel leaves an external pump too little suction margin',
  severity: 'error',
  why: 'Hot fuel boils as soon as the pressure at the pump inlet falls to its vapor pressure; the pump then moves vapor, the rail pressure collapses and the engine stops until everything has cooled. Altitude, summer heat, winter-grade fuel, a thin line and a fine pre-filter all eat into the margin.',
  inspect:
    'After a hot stop, or on a slow climb in summer: a pump that starts to whine and a rail gauge that shakes show vapor at the inlet. Measure how hot the fuel in the tank gets.',
  remedy:
    'Into the tank or a module cures it. Outside: lower, nearer, wider, a coarser strainer, away from the exhaust.',
  source:
    'net positive suction head by the definition of ISO 17769-1:2012; vapor pressure EPA AP-42, 5th ed., chapter 7.1; the limit is common practice',
  cautions: ['used-tank'],
  check: (situation) => {
    const { values, know } = situation;
    const miss = marginMiss(situation);
    if (!miss || heightMiss(situation) || distanceMiss(situation) || surelyBoils(situation)) return undefined;
    const [inTank, module, surgeTank] = betterPlaces(values);
    const doubt = know(vaporKind) === 'blend' ? ' How much of the vapor is alcohol is an estimate.' : '';
    return {
      at: 'fuel-system.pump.placement',
      message: `On the hottest day the fuel is about to boil at the pump inlet.${marginSentence(situation)}${doubt}`,
      related: values.site ? [{ at: 'site', message: 'Altitude and the hottest day count.' }] : [],
      ...miss,
      repairs: [inTank, module, ...gentlerSuction(situation, miss.excess), surgeTank],
    };
  },
};

/** What gives the pump more head where it is: a lower place, a wider line. */
function gentlerSuction(situation: Situation, missing: number): Repair[] {
  const bore = situation.values['fuel-system']?.suction?.['inside-diameter'];
  const lower = lowerPlace(situation, missing);
  const repairs: Repair[] = [];
  if (lower) {
    repairs.push({
      title: `Lower the pump to ${belowOutlet(lower)}`,
      set: { 'fuel-system.pump.height-above-outlet': lower },
      shows: suctionMargin,
    });
  }
  const [wider] = bore ? boresAbove(bore) : [];
  if (wider && headLost(situation) > missing) {
    repairs.push({
      title: `Run a suction line of ${wider}`,
      set: { 'fuel-system.suction.inside-diameter': wider },
      shows: suctionMargin,
    });
  }
  return repairs;
}
