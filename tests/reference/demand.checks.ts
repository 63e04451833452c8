import * as demand from '../../server/src/engineering/demand.ts';
import { customFuel, fuels, gasoline, stoichiometricRatio } from '../../server/src/engineering/fuels.ts';
import { type Check, fromFirstSet, ownCheck } from './check.ts';
import { CUBIC_INCH, HORSEPOWER, LITER_PER_HOUR, POUND_PER_HORSEPOWER_HOUR, POUND_PER_HOUR, RPM } from './units.ts';

const topic = 'fuel demand';
const first = (id: string, got: () => number) => fromFirstSet(id, 3, topic, got);
const halfPound = 0.5 * POUND_PER_HORSEPOWER_HOUR;
const threeHundred = () => demand.fuelDemandByPower(300 * HORSEPOWER, halfPound);
const row = (id: string, horsepower: number) =>
  first(id, () => demand.fuelDemandByPower(horsepower * HORSEPOWER, halfPound) / POUND_PER_HOUR);

const own = ownCheck(3, topic);

const definition = 'definition of BSFC';

export const checks: Check[] = [
  first('P02', () => threeHundred() * 1e3),
  first('P03', () => threeHundred() / 745 / LITER_PER_HOUR),
  first('P04', () => demand.brakeThermalEfficiency(halfPound, gasoline)),
  first('P22', () => {
    const fuel = demand.fuelDemandByAir(0.2737194, 12.5 / stoichiometricRatio(gasoline), gasoline);
    return demand.powerSupported(fuel, halfPound) / HORSEPOWER;
  }),
  row('A13', 130),
  row('A14', 220),
  row('A15', 97),
  row('A16', 150),
  row('A20', 103),
  row('A21', 48),
  own(
    'demand-sfc-heywood',
    'brake thermal efficiency at the best BSFC of spark-ignition engines, 270 g/(kW h), 44 MJ/kg',
    () => demand.brakeThermalEfficiency(0.27 / 3.6e6, customFuel(gasoline, { lowerHeatingValue: 44e6 })),
    0.303,
    '-',
    0.005,
    'Heywood, Internal Combustion Engine Fundamentals (1988), section 2.8: best bsfc about 75 ug/J = 270 g/(kW h), eq. 2.24; from memory',
  ),
  own(
    'demand-bsfc-units',
    'BSFC of 0.50 lb/(hp h) used as the natural default, in g/(kW h)',
    () => demand.defaultBsfc('natural', gasoline).usual * 3.6e9,
    0.5 * 608.2773878,
    'g/(kW h)',
    1e-8,
    "GNU units 2.22: units '1 lb/hp/hour' 'g/kW/hour' gives 608.2773878",
  ),
  own(
    'demand-bsfc-methanol',
    'BSFC of methanol over that of gasoline at the same air and lambda',
    () => demand.bsfcOfFuel(halfPound, fuels.methanol) / halfPound,
    14.6 / 6.47,
    '-',
    0.003,
    'ratio of the stoichiometric ratios of Heywood Table D.4, from memory',
  ),
  own(
    'demand-air-stoichiometric',
    'fuel for 100 kg/h of air at 14.7 to 1',
    () => demand.fuelDemandByAir(100 / 3600, 1, customFuel(gasoline, { stoichiometricRatio: 14.7 })) * 3600,
    6.803,
    'kg/h',
    1e-4,
    'exact arithmetic: 100 / 14.7',
  ),
  own(
    'demand-implied-ve',
    'volumetric efficiency implied by the air of 350 cubic inches at 5500 rpm, 273.7194 g/s',
    () => demand.impliedVolumetricEfficiency(0.2737194, 350 * CUBIC_INCH, 5500 * RPM, 1.225),
    0.85,
    '-',
    1e-5,
    'first set of outside checks, P18 read backward',
  ),
  own(
    'demand-torque',
    'torque of 200 kW at 5000 rpm',
    () => demand.torqueOfPower(200e3, 5000 * RPM),
    381.97,
    'N m',
    1e-5,
    'trade form T = 9549.3 kW / rpm',
  ),
  own(
    'demand-textbook-power',
    'power of 14.5 kgf m at 2500 rpm',
    () => demand.powerOfTorque(14.5 * 9.80665, 2500 * RPM) / (75 * 9.80665),
    50.61,
    'metric hp',
    1e-3,
    'T N / 716.2, trade form for metric horsepower',
  ),
  own(
    'demand-definition',
    'fuel of 100 kW at 300 g/(kW h)',
    () => demand.fuelDemandByPower(100e3, 0.3 / 3.6e6) * 3600,
    30,
    'kg/h',
    1e-12,
    definition,
  ),
];
