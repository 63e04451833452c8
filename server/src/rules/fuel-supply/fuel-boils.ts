import { boilingTemperature, vaporShare } from '../../analysis/boiling.ts';
import { hottestFuel } from '../../analysis/fuel.ts';
import { field } from '../../analysis/node.ts';
import type { Situation, StageRule } from '../../checking/rule.ts';
import { boilsInTank, dayInWords, isBoilingKnown, lessVolatile } from '../../remedies/boiling.ts';

const statedAltitude = field('site.altitude', 'H');

export const rule: StageRule = {
  id: 'fuel-supply/fuel-boils',
  title: 'The fuel boils in the tank',
  severity: 'error',
  why: 'Fuel boils when its vapor pressure reaches the pressure on it, and a vented tank has only the air on it. Boiling fuel starves any pump, in the tank or outside, and vents vapor that burns; a pump that sits in the fuel does not change that. Winter fuel in summer, heat and altitude all push it there.',
  inspect:
    'A probe on the tank or in the fuel after a long hot drive, nearly empty. Look for a tank that hisses when the cap comes off, a pump that whines, a rail gauge that shakes.',
  remedy:
    'Fuel for the season, and less heat in the tank: keep the exhaust away or shield it, let the surplus turn back at the tank and not at the hot engine, a cooler in the return, a larger tank kept fuller. A cap that holds pressure helps only on a tank made for it.',
  source: 'EPA AP-42, 5th ed., chapter 7.1, for the vapor pressure; ISO 2533:1975 for the air',
  check: (situation) => {
    const miss = boilsInTank(situation);
    if (!miss) {
      askForHeight(situation);
      return undefined;
    }
    if (!isBoilingKnown(situation)) return undefined;
    const { values } = situation;
    return {
      at: values.fuel?.['vapor-pressure'] ? 'fuel.vapor-pressure' : 'fuel.grade',
      message: message(situation),
      related: [
        ...(values.site?.['hottest-fuel'] ? [{ at: 'site.hottest-fuel' as const, message: 'So hot.' }] : []),
        ...(values.site?.altitude ? [{ at: 'site.altitude' as const, message: 'So thin is the air on it.' }] : []),
      ],
      day: 'the hottest, highest day',
      ...miss,
      repairs: lessVolatile(situation, vaporShare),
    };
  },
};

/** Fuel that does not boil at the sea may boil higher up: where nobody says how high, the check stays open. */
function askForHeight({ values, know }: Situation): void {
  if (!values.site?.['highest-altitude']) know(statedAltitude);
}

function message(situation: Situation): string {
  const { values, see, know, show, showValue } = situation;
  const boils = see(boilingTemperature);
  const fuel = know(hottestFuel);
  const hot = fuel === undefined ? 'hotter' : showValue(fuel, 'temperature');
  const measured = values.site?.['hottest-fuel'] !== undefined;
  const gets = measured ? `it gets to ${hot} in the tank` : `on ${dayInWords(situation)} the tank gets to about ${hot}`;
  const altitude = values.site?.altitude;
  const there = altitude ? ` at ${altitude.text}` : '';
  return `This fuel boils${there}${boils ? ` from ${show(boils)} on` : ''}, and ${gets}: vapor starves the pump wherever it sits, and leaves by the vent.`;
}
