import { demandByPower } from '../../analysis/demand.ts';
import { chemistry } from '../../analysis/fuel.ts';
import type { StageRule } from '../../checking/rule.ts';
import { bsfcOfFuel, defaultBsfc, inductionDefaults } from '../../engineering/demand.ts';
import { fuelName } from '../../remedies/fuel-name.ts';
import { roundedUp } from '../../remedies/size.ts';

/** How far below and above the usual range a measured figure may lie. Common practice, from memory. */
const LEAST = 0.85;
const MOST = 1.3;

export const rule: StageRule = {
  id: 'engine/consumption-not-of-fuel',
  title: 'Fuel consumption does not suit the fuel',
  severity: 'warning',
  why: 'Injectors and pump are sized by power times specific consumption. A figure for gasoline on an alcohol fuel leaves them too small, by about a third on E85 and by more than half on methanol, and the engine lean at full power.',
  inspect: 'Find out where the number came from and for which fuel; a dyno sheet says.',
  remedy: 'Scale it to the fuel, or leave it out and let the usual figure stand.',
  source: 'common practice: specific consumption by induction, scaled to the fuel by stoichiometric ratio',
  check: ({ stage, values, induction, know, show }) => {
    const given = stage['specific-consumption'];
    if (!given || !values.fuel?.grade) return undefined;
    const fuel = know(chemistry);
    if (!fuel) return undefined;
    const { low, usual, high } = defaultBsfc(induction, fuel);
    if (given.value >= low * LEAST && given.value <= high * MOST) return undefined;
    const gasoline = inductionDefaults[induction].bsfc;
    const isOfGasoline = given.value >= gasoline.low * LEAST && given.value <= gasoline.high * MOST;
    const scaled = roundedUp(isOfGasoline ? bsfcOfFuel(given.value, fuel) : usual, given);
    return {
      at: 'stages.specific-consumption',
      message: `${show(given)} is far from the ${roundedUp(low, given)} to ${roundedUp(high, given)} usual for ${fuelName(values.fuel.grade)} with ${induction} induction${isOfGasoline ? '; it looks like a figure for gasoline' : ''}.`,
      related: [{ at: 'fuel.grade', message: 'The fuel.' }],
      repairs: [
        {
          title: isOfGasoline ? `Scale it to the fuel: ${scaled}` : `Take the usual ${scaled}`,
          set: { 'stages.specific-consumption': scaled },
          shows: demandByPower,
        },
      ],
    };
  },
};
