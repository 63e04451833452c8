import { hottestDay } from '../../analysis/air.ts';
import { boilingTemperature, heatedFuel, heatedVaporShare } from '../../analysis/boiling.ts';
import { hasReturn } from '../../analysis/regulator.ts';
import { above, type Repair, type Situation, type StageRule } from '../../checking/rule.ts';
import { boilsInTank, isBoilingKnown, lessVolatile } from '../../remedies/boiling.ts';
import { roundedUp } from '../../remedies/size.ts';

/** How much larger a tank can be than the present one before it is another car. */
const LARGEST = 2;

export const rule: StageRule = {
  id: 'fuel-supply/fuel-heats-to-boiling',
  title: 'The fuel may boil after a day of driving',
  severity: 'warning',
  why: 'What the pump draws ends as heat in the fuel, and what comes back from the engine brings more. A small tank gives little of it to the air, so over a day the fuel gets far hotter than the air and may reach its boiling point: the car that ran all morning stalls in the afternoon.',
  inspect:
    'A probe on the tank at the end of a long hot day, nearly empty; write the temperature down as the hottest fuel.',
  remedy:
    'Measure first: the heating is an estimate. Then a regulator in the tank, so that only what is burned goes to the engine, a cooler in the return, a pump that draws less, a larger tank, fuel for the season.',
  source:
    'common practice: heat of pump and return against what the tank gives to the air; vapor pressure EPA AP-42, 5th ed., chapter 7.1',
  check: (situation) => {
    const { values, see, show, compare } = situation;
    if (values.site?.['hottest-fuel'] || boilsInTank(situation)) return undefined;
    const miss = above(see(heatedVaporShare), 1);
    const heated = see(heatedFuel);
    if (!miss || !heated || !isBoilingKnown(situation)) return undefined;
    const boils = see(boilingTemperature);
    const shown = boils && compare(heated, boils.value);
    return {
      at: 'fuel-system.tank.capacity',
      message: `Over a full day the pump${situation.know(hasReturn) ? ' and what comes back from the engine' : ''} may heat the fuel to ${shown ? `${shown.value}; it boils at ${shown.limit}` : `${show(heated)}, where it boils`}. Measure it: with the hottest fuel written down this is certain.`,
      related: [{ at: 'fuel.vapor-pressure', message: 'By this vapor pressure.' }],
      day: 'the hottest, highest day',
      ...miss,
      repairs: [...regulatorInTank(situation), ...largerTank(situation), ...lessVolatile(situation, heatedFuel)],
    };
  },
};

/** A module with the regulator in it: nothing comes back from the engine. */
function regulatorInTank({ know, values }: Situation): Repair[] {
  if (!know(hasReturn) || values['fuel-system']?.pump?.placement === 'external') return [];
  return [
    {
      title: 'Take a tank module with the regulator in it, one line to the engine',
      set: { 'fuel-system.regulator.style': 'internal-bypass', 'fuel-system.pump.placement': 'tank-module' },
      remove: ['fuel-system.return'],
      shows: heatedFuel,
    },
  ];
}

/** A tank in which the fuel stays under its boiling point: the heating falls with the power 2/3 of its volume. */
function largerTank({ values, see, know }: Situation): Repair[] {
  const volume = values['fuel-system']?.tank?.capacity;
  const [heated, boils, day] = [see(heatedFuel), see(boilingTemperature), know(hottestDay)];
  if (!volume || !heated || !boils || day === undefined || boils.value <= day) return [];
  const times = ((heated.value - day) / (boils.value - day)) ** 1.5;
  if (times > LARGEST) return [];
  const size = roundedUp(volume.value * times, volume);
  return [{ title: `Fit a tank of ${size}`, set: { 'fuel-system.tank.capacity': size }, shows: heatedFuel }];
}
