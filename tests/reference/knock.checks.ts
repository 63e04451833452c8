import { chargeTemperature, evaporationCooling } from '../../server/src/engineering/charge.ts';
import { ethanol, gasoline } from '../../server/src/engineering/fuels.ts';
import {
  type Cylinder,
  ignitionDelay,
  indexAtShare,
  knockIndex,
  limitedSpark,
} from '../../server/src/engineering/knock.ts';
import { antiknockIndex } from '../../server/src/engineering/octane.ts';
import { parseQuantity } from '../../server/src/units/parse.ts';
import { isQuantity } from '../../server/src/units/quantity.ts';
import { type Check, ownCheck } from './check.ts';
import knock from './values/knock.json' with { type: 'json' };

const own = ownCheck(16, 'knock');
const fuel = ownCheck(16, 'octane and charge');
const atmosphere = 101325;
const cylinder = (compressionRatio: number, more: Partial<Cylinder> = {}): Cylinder => ({
  compressionRatio,
  closing: 50,
  pressure: atmosphere,
  temperature: 330,
  octane: 91,
  speed: 50,
  ...more,
});
const boosted = (temperature: number) => cylinder(8.5, { pressure: 1.5 * atmosphere, temperature });
const independent = `${knock.call}, ${knock['made with']}`;
const models = 'engineering notes, section 16: two quite different models computed outside the project';
const delay = (octane: number, atmospheres: number, kelvin: number) =>
  ignitionDelay(octane, atmospheres * atmosphere, kelvin) * 1e3;
const formula = 'formula of Douaud and Eyzat worked by hand';

/** Octane of a text, AKI. */
function octaneIn(text: string): number {
  const read = parseQuantity(text, 'octane');
  return isQuantity(read) ? read.value : Number.NaN;
}

export const checks: Check[] = [
  own('knock-delay', 'delay at 100 octane, 30 atm, 800 K', () => delay(100, 30, 800), 6.299, 'ms', 1e-3, formula),
  own('knock-delay-octane', 'delay at 90 octane, 30 atm, 800 K', () => delay(90, 30, 800), 4.4016, 'ms', 1e-3, formula),
  own('knock-delay-hot', 'delay at 100 octane, 50 atm, 900 K', () => delay(100, 50, 900), 1.5593, 'ms', 1e-3, formula),
  own(
    'knock-share',
    'full-load index that is 1 with half the charge let in',
    () => indexAtShare(0.5),
    3.24901,
    '-',
    1e-5,
    '2^1.7 worked by hand',
  ),
  own(
    'knock-reference',
    'index of the reference engine',
    () => knockIndex(cylinder(9.5), 34, 'iron'),
    1,
    '-',
    1e-12,
    'definition',
  ),
  own(
    'knock-grid',
    `Largest difference of the limited spark over ${knock.rows.length} cylinders: compression, boost, temperature, octane`,
    () =>
      Math.max(
        ...(knock.rows as [number, number, number, number, number][]).map(
          ([compression, pressure, temperature, octane, spark]) =>
            Math.abs(limitedSpark(cylinder(compression, { pressure, temperature, octane }), 'iron').spark - spark),
        ),
      ),
    0,
    'deg',
    { absolute: 0.3 },
    independent,
  ),
  own(
    'knock-index-grid',
    'Largest relative difference of the index over compressions from 8 to 12.6',
    () =>
      Math.max(
        ...(knock.indices.rows as [number, number][]).map(([compression, index]) =>
          Math.abs(knockIndex(cylinder(compression), 34, 'iron') / index - 1),
        ),
      ),
    0,
    '-',
    { absolute: 0.005 },
    independent,
  ),
  ...(
    [
      ['10-5', 'at 10.5 to 1', cylinder(10.5), 28.7],
      ['cooled', 'at 8.5 to 1 and 0.5 atm of cooled boost', boosted(330), 25.2],
      ['uncooled', 'at 8.5 to 1 and 0.5 atm of uncooled boost', boosted(390), 18.1],
    ] as const
  ).map(([id, what, of, spark]) =>
    own(
      `knock-spark-${id}`,
      `limited spark ${what}`,
      () => limitedSpark(of, 'iron').spark,
      spark,
      'deg',
      { absolute: 2 },
      models,
    ),
  ),
  ...(
    [
      [8, 0.62],
      [9, 0.86],
      [10, 1.17],
      [10.5, 1.33],
      [11, 1.52],
      [11.8, 1.85],
      [12.6, 2.2],
    ] as const
  ).map(([compression, index]) =>
    own(
      `knock-index-${compression}`,
      `index at ${compression} to 1 on 91 AKI`,
      () => knockIndex(cylinder(compression), 34, 'iron'),
      index,
      '-',
      0.06,
      models,
    ),
  ),
  own(
    'knock-aluminum',
    'index of 10.5 to 1 with aluminum heads',
    () => knockIndex(cylinder(10.5), 34, 'aluminum'),
    1,
    '-',
    1e-12,
    'common practice: 9.5 iron and 10.5 aluminum on pump premium',
  ),
  fuel(
    'octane-ron',
    '95 RON as antiknock index',
    () => antiknockIndex(95, 'RON'),
    91,
    'AKI',
    1e-12,
    'US and European pumps compared: 95 RON is sold as 91 AKI; common practice',
  ),
  fuel(
    'octane-mon',
    '85 MON as antiknock index',
    () => antiknockIndex(85, 'MON'),
    90,
    'AKI',
    0.02,
    'EN 228, 95 RON and 85 MON: mean 90, from memory',
  ),
  fuel(
    'octane-written',
    '95 RON and 87 MON as a sheet writes them, less 91 AKI',
    () => Math.max(...['95 RON', '87 MON', '91 AKI', '91'].map((text) => Math.abs(octaneIn(text) - 91))),
    0,
    'AKI',
    { absolute: 1e-9 },
    'definition of AKI, RON and MON taken 8 apart: common practice',
  ),
  fuel(
    'charge-ethanol',
    'fall of temperature when all ethanol evaporates in its stoichiometric air: 921 kJ/kg over 9.0 of air',
    () => evaporationCooling(ethanol, 1, 1),
    (396 * 2.326e3) / (8.98 * 1005),
    'K',
    0.01,
    'US DOE Alternative Fuels Data Center, 396 Btu/lb, worked by hand',
  ),
  fuel(
    'charge-gasoline',
    'charge of 25 degC air and gasoline at intake closing',
    () => chargeTemperature({ air: 298.15, fuel: gasoline, lambda: 0.88, nitrousCooling: 0 }),
    330,
    'K',
    { absolute: 0.5 },
    'engineering notes, section 16',
  ),
];
