import {
  boostedBmep,
  buildOfCam,
  naturalBmep,
  USUAL_BMEP,
  usualPeakPowerSpeed,
} from '../../server/src/engineering/bmep.ts';
import { brakeMeanEffectivePressure, powerOfTorque } from '../../server/src/engineering/demand.ts';
import { idleManifoldPressure } from '../../server/src/engineering/idle.ts';
import { torqueAt } from '../../server/src/engineering/torque-curve.ts';
import { type Check, ownCheck } from './check.ts';
import { CUBIC_INCH, HORSEPOWER, INCH_OF_MERCURY, PSI, RPM } from './units.ts';

const own = ownCheck(20, 'speed and torque');
const bmep = ownCheck(14, 'plausible mean effective pressure');
const idle = ownCheck(20, 'idle');

const curve = { power: 300 * HORSEPOWER, peakPowerSpeed: 5000 * RPM };
const torque = (rpm: number) => torqueAt(curve, rpm * RPM).torque / 1.3558179483;
const power = (rpm: number) => powerOfTorque(torqueAt(curve, rpm * RPM).torque, rpm * RPM) / HORSEPOWER;

export const checks: Check[] = [
  own(
    'usual-speed',
    'peak-power speed of 245 hp from 300 cubic inches at 140 psi, by the trade formula 792,000 hp / (cid psi)',
    () => usualPeakPowerSpeed(245 * HORSEPOWER, 300 * CUBIC_INCH).speed / RPM,
    (792000 * 245) / (300 * 140),
    'rpm',
    1e-4,
    'trade formula for mean effective pressure (first set of outside checks, notes), worked by hand',
  ),
  own(
    'usual-speed-cap',
    'peak-power speed assumed for 400 hp from 250 cubic inches, which would need 9,051 rpm',
    () => usualPeakPowerSpeed(400 * HORSEPOWER, 250 * CUBIC_INCH).speed / RPM,
    6500,
    'rpm',
    1e-12,
    'engineering notes, section 20, common practice',
  ),
  own(
    'usual-torque-peak-power',
    'torque of 300 hp at 5,000 rpm, 5252 hp / rpm',
    () => torque(5000),
    315.13,
    'lbf ft',
    1e-4,
    'trade formula, worked by hand',
  ),
  own(
    'usual-torque-peak',
    'torque peak of the same curve, at 3,250 rpm',
    () => torque(3250),
    352.95,
    'lbf ft',
    1e-4,
    'engineering notes, section 20, common practice, worked by hand: 1.12 times',
  ),
  own(
    'usual-torque-between',
    'torque at 4,125 rpm, half way: 1.12 - 0.01 / 4 - 0.11 / 8 of that at peak power',
    () => torque(4125),
    347.82,
    'lbf ft',
    1e-4,
    'the cubic worked by hand from its four conditions',
  ),
  own(
    'usual-power-peak',
    'Largest power from 1,000 to 6,000 rpm over that at 5,000',
    () => Math.max(...Array.from({ length: 501 }, (_, i) => power(1000 + 10 * i))) - power(5000),
    0,
    'hp',
    { absolute: 1e-9 },
    'definition of peak power',
  ),
  own(
    'usual-low-end',
    'torque at 1,000 rpm over the torque peak, mild engine',
    () => torque(1000) / torque(3250),
    0.83,
    '-',
    0.05,
    'common practice, from memory: 78 to 88 %',
  ),
  bmep(
    'bmep-mild-claim',
    'how far 335 hp from 302 cubic inches at 5,080 rpm exceed a mild engine',
    () => brakeMeanEffectivePressure(335 * HORSEPOWER, 302 * CUBIC_INCH, 5080 * RPM) / naturalBmep.mild.high,
    (792000 * 335) / (302 * 5080) / 150,
    '-',
    1e-4,
    'trade formula for mean effective pressure, worked by hand: 173 psi',
  ),
  bmep(
    'bmep-production',
    'usual figure of a mild engine at the torque peak, 12 % above that at peak power',
    () => (USUAL_BMEP * 1.12) / 1e3,
    1050,
    'kPa',
    0.06,
    'Heywood, section 2.7, production engines 850 to 1050 kPa, from memory',
  ),
  bmep(
    'bmep-boosted',
    'boosted estimate of a mild engine at a density ratio of 1.4, 8 psi for the blower: 140 * 1.4 - 8',
    () => boostedBmep('mild', 1.4, 8 * PSI).usual / PSI,
    188,
    'psi',
    1e-9,
    'worked by hand; common practice',
  ),
  bmep(
    'bmep-turbo',
    'boosted estimate of a mild engine at a density ratio of 1.5, no drive',
    () => boostedBmep('mild', 1.5, 0).usual / 1e3,
    1450,
    'kPa',
    0.17,
    'Heywood, section 2.7, turbocharged 1250 to 1700 kPa, from memory',
  ),
  idle(
    'idle-stock',
    'vacuum at idle of a stock cam of 200 degrees',
    () => (101325 - idleManifoldPressure(200)) / INCH_OF_MERCURY,
    18.9,
    'inHg',
    0.05,
    'common practice: 18 to 20 inHg',
  ),
  idle(
    'idle-long',
    'vacuum at idle of a cam of 230 degrees',
    () => (101325 - idleManifoldPressure(230)) / INCH_OF_MERCURY,
    12,
    'inHg',
    0.08,
    'common practice, from memory: 11 to 13 inHg',
  ),
  idle(
    'idle-cam-kinds',
    'builds told apart by 204, 230 and 262 degrees at 0.050 in',
    () => ['mild', 'long-cam', 'racing'].filter((kind, i) => buildOfCam([204, 230, 262][i] as number) === kind).length,
    3,
    'of 3',
    0,
    'common practice',
  ),
];
