import { blend, customFuel, ethanol, gasoline, methanol } from '../../server/src/engineering/fuels.ts';
import * as nitrous from '../../server/src/engineering/nitrous.ts';
import { type Check, fromFirstSet, ownCheck } from './check.ts';
import { HORSEPOWER, POUND_PER_HOUR } from './units.ts';

const topic = 'nitrous';
const first = (id: string, got: () => number) => fromFirstSet(id, 11, topic, got);
const ratio = nitrous.stoichiometricNitrousRatio;
const own = ownCheck(11, topic);
const chemistry = ownCheck(17, 'ratio and charge');
const e85 = () => blend(gasoline, customFuel(ethanol, { density15: 789.3 }), 0.85);

export const checks: Check[] = [
  first('N02', () => ratio({ carbon: 8, hydrogen: 18, oxygen: 0 })),
  first('N04', () => ratio(ethanol)),
  first('N05', () => ratio(methanol)),
  first('N06', () => ratio(blend(gasoline, customFuel(ethanol, { density15: 789.3 }), 0.85))),
  first('N07', () => nitrous.nitrousFuel(100 * HORSEPOWER) / POUND_PER_HOUR),
  first('N08', () => nitrous.nitrousFlow(60 * POUND_PER_HOUR, 6) * 1e3),
  first('N10', () => nitrous.AIR_PER_NITROUS),
  own(
    'nitrous-hydrogen',
    'nitrous oxide burned with carbon: C + 2 N2O -> CO2 + 2 N2',
    () => ratio({ carbon: 1, hydrogen: 0, oxygen: 0 }),
    88.026 / 12.011,
    'kg/kg',
    1e-4,
    'balanced reaction with molar masses 44.013 and 12.011 g/mol',
  ),
  own(
    'nitrous-retard',
    'retard for 150 hp',
    () => nitrous.nitrousRetard(150 * HORSEPOWER),
    6,
    'deg',
    1e-9,
    'common practice: 2 degrees per 50 hp; 2.5 degrees per 50 hp is printed in a public magazine article',
  ),
  own(
    'nitrous-bottle',
    'time a 10 lb charge lasts at 6 lb/min with 85 % usable',
    () => nitrous.bottleTime(10, 6 / 60),
    85,
    's',
    1e-9,
    'worked by hand; the usable share is common practice',
  ),
  own(
    'nitrous-dry',
    'injector flow of a dry 100 hp system on an engine that takes 150 lb/h',
    () => nitrous.fuelWithNitrous('dry', 150, 60).injectors,
    210,
    'lb/h',
    1e-12,
    'mass balance, worked by hand',
  ),
  own(
    'nitrous-air',
    'nitrous oxide of gasoline over its air, against the oxygen in both',
    () => ratio(gasoline) * nitrous.AIR_PER_NITROUS,
    14.6,
    'kg air/kg',
    0.002,
    'stoichiometric ratio of gasoline, Heywood Table D.4, from memory',
  ),
  chemistry(
    'nitrous-limit-gasoline',
    'ratio of gasoline CH1.87 over chemistry: 2 (1 + 1.87 / 4) 44.013 / 13.896',
    () => nitrous.stoichiometricNitrousRatio(gasoline),
    9.297,
    'kg/kg',
    1e-3,
    'balanced reaction, worked by hand',
  ),
  chemistry(
    'nitrous-limit-ethanol',
    'ratio of ethanol over chemistry: 2 * 3 * 44.013 / 46.069',
    () => nitrous.stoichiometricNitrousRatio(ethanol),
    5.7323,
    'kg/kg',
    1e-3,
    'balanced reaction, worked by hand',
  ),
  chemistry(
    'nitrous-limit-methanol',
    'ratio of methanol over chemistry: 2 * 1.5 * 44.013 / 32.042',
    () => nitrous.stoichiometricNitrousRatio(methanol),
    4.1208,
    'kg/kg',
    1e-3,
    'balanced reaction, worked by hand',
  ),
  chemistry(
    'nitrous-limit-e85',
    'ratio of 85 % ethanol over chemistry, parts by mass 0.857 and 0.143',
    () => nitrous.stoichiometricNitrousRatio(e85()),
    0.857 * 5.7323 + 0.143 * 9.297,
    'kg/kg',
    2e-3,
    'mean by mass of the two rows above, worked by hand',
  ),
  chemistry(
    'nitrous-warning',
    'ratio of gasoline that is worth a warning',
    () => nitrous.nitrousRatioShare.value * nitrous.stoichiometricNitrousRatio(gasoline),
    6.5,
    'kg/kg',
    0.08,
    'common practice, 5 to 6.5; 0.75 of chemistry is 6.97',
  ),
  chemistry(
    'nitrous-energy',
    'mean effective pressure of 140 psi with 150 hp of nitrous on 300 hp',
    () => 140 * nitrous.nitrousEnergyRatio(300 * HORSEPOWER, 150 * HORSEPOWER),
    210,
    'psi',
    1e-12,
    'worked by hand',
  ),
  chemistry(
    'nitrous-cooling',
    'fall of the charge temperature with 45.4 g/s of nitrous in 0.25 kg/s of air',
    () => nitrous.nitrousCooling(45.4e-3, 0.25),
    (0.5 * 45.4e-3 * 255.8e3) / (0.25 * 1005),
    'K',
    1e-2,
    'heat from CoolProp 8.0.0, liquid at 20 degC to gas at 300 K and 1 bar, 255.8 kJ/kg; half of it from the charge is common practice',
  ),
];
