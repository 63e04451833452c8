import { readDeadTime } from '../../server/src/engineering/dead-time.ts';
import * as part from '../../server/src/engineering/part-load.ts';
import { crankingFuel } from '../../server/src/engineering/starting.ts';
import { type Check, ownCheck } from './check.ts';

const own = ownCheck(21, 'part load');
const dead = ownCheck(21, 'dead time');
const cold = ownCheck(21, 'starting');
const cranked = { displacement: 5.7e-3, pressure: 101325, temperature: 293.15, stoichiometric: 14.7 };
const efficiency = (manifoldPressure: number, compressionRatio: number, exhaustPressure = 101325) =>
  part.partLoadEfficiency({ full: 1, manifoldPressure, exhaustPressure, compressionRatio });
const ideal = 'Heywood, ideal cycle of section 6.2, formula worked by hand';
const table = [
  { voltage: 10, deadTime: 1.6e-3 },
  { voltage: 12, deadTime: 1.1e-3 },
  { voltage: 14, deadTime: 0.85e-3 },
];

export const checks: Check[] = [
  own(
    'part-40',
    'share of full efficiency at 40 kPa, 9 to 1',
    () => efficiency(40e3, 9),
    0.85,
    '-',
    0.02,
    'engineering notes, section 21: about 0.85',
  ),
  own(
    'part-40-exact',
    'the same worked out: 9 / 8 - (2.5331 + 0.4) / 11.2',
    () => efficiency(40e3, 9),
    0.86311,
    '-',
    1e-4,
    ideal,
  ),
  own(
    'part-full',
    'share at 101.325 kPa against as much in the exhaust',
    () => efficiency(101325, 9),
    1,
    '-',
    1e-12,
    ideal,
  ),
  own(
    'part-back-pressure',
    'share at 50 kPa, 11 to 1, exhaust at 110 kPa: 1.1 - (2.2 + 0.4) / 14',
    () => efficiency(50e3, 11, 110e3),
    0.914286,
    '-',
    1e-5,
    ideal,
  ),
  own(
    'part-lambda',
    'starting lambda half way between cruise and full load: 82.5 % of ambient, 0.88 at full load',
    () => part.startingLambda(82.5e3, 100e3, 0.88),
    0.94,
    '-',
    1e-9,
    'common practice, worked by hand',
  ),
  dead(
    'dead-inside',
    'dead time at 11 V from 1.6 ms at 10 V and 1.1 ms at 12 V',
    () => readDeadTime(11, table).deadTime * 1e3,
    1.35,
    'ms',
    1e-9,
    'straight line, worked by hand',
  ),
  dead(
    'dead-near',
    'dead time at 9 V by the inverse square from 1.6 ms at 10 V',
    () => readDeadTime(9, table).deadTime * 1e3,
    1.9753,
    'ms',
    1e-4,
    'common practice, worked by hand',
  ),
  dead(
    'dead-beyond',
    'dead time at 7 V, unknown: as at 9 V',
    () => readDeadTime(7, table).deadTime * 1e3,
    1.9753,
    'ms',
    1e-4,
    'engineering notes, section 21: not extrapolated further',
  ),
  cold(
    'cranking-plain',
    'fuel of a cycle of 5.7 L at 20 degC without excess: 0.8 * 5.7 L * 1.2041 kg/m3 / 14.7',
    () => crankingFuel({ ...cranked, factor: 1 }) * 1e6,
    373.5,
    'mg',
    1e-3,
    'Heywood eq. 2.27 and 3.9 worked by hand; air of 20 degC has 1.2041 kg/m3 (ISO 2533:1975)',
  ),
  cold(
    'cranking-cold',
    'the same at -20 degC with 4.5 times the fuel: 0.8 * 5.7 L * 1.3944 kg/m3 / 14.7 * 4.5',
    () => crankingFuel({ ...cranked, temperature: 253.15, factor: 4.5 }) * 1e6,
    1946.5,
    'mg',
    1e-3,
    'Heywood eq. 2.27 and 3.9 worked by hand; air of -20 degC has 1.3944 kg/m3 (ideal gas)',
  ),
];
