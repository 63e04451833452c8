import * as ignition from '../../server/src/engineering/ignition.ts';
import { startingAdvance, startingTiming } from '../../server/src/engineering/timing.ts';
import { type Check, fromFirstSet, ownCheck } from './check.ts';
import { PSI, RPM } from './units.ts';

const topic = 'ignition';
const first = (id: string, got: () => number) => fromFirstSet(id, 12, topic, got);
const points = { resistance: 3, inductance: 8e-3 };
const quick = { resistance: 0.5, inductance: 3.5e-3 };
const own = ownCheck(12, topic);

const advance = (speed: number, manifoldPressure: number, induction: 'natural' | 'roots') =>
  startingAdvance(startingTiming(induction), {
    speed: speed * RPM,
    idleSpeed: 750 * RPM,
    manifoldPressure,
    ambient: 101325,
  });
const practice = 'common practice, from memory: the figure the curve must pass through';

export const checks: Check[] = [
  first('C01', () => ignition.finalCurrent(14, 1.5, 1.5)),
  first('C03', () => ignition.timeConstant(points) * 1e3),
  first('C04', () => ignition.coilCurrent(14, points, 3e-3)),
  first('C05', () => ignition.coilCurrent(14, points, 1.5e-3)),
  first('C06', () => ignition.coilCurrent(14, quick, 3e-3)),
  first('C08', () => ignition.timeToCurrent(7, 14, quick) * 1e3),
  first('C09', () => ignition.storedEnergy(3.5e-3, 7) * 1e3),
  first('C10', () => ignition.sparkInterval(6000 * RPM, 8) * 1e3),
  first('C11', () => ignition.dwellAvailable(6000 * RPM, 8, 1e-3) * 1e3),
  first('C12', () => ignition.highestSpeedForDwell(3e-3, 8, 1e-3) / RPM),
  own(
    'ignition-textbook-rise',
    'time to 95 % of the final current, 12 V, 10 mH, 2 ohm',
    () => ignition.timeToCurrent(0.95 * 6, 12, { resistance: 2, inductance: 10e-3 }) * 1e3,
    14.98,
    'ms',
    1e-3,
    'published worked example of a car ignition coil (printed 0.01497 s, rounded down), read',
  ),
  own(
    'ignition-textbook-current',
    'final current of a 4 ohm ignition solenoid at 12 V',
    () => ignition.finalCurrent(12, 4),
    3,
    'A',
    1e-9,
    'Alexander and Sadiku, Fundamentals of Electric Circuits, example on automobile ignition (section 7.9), read in a reprint',
  ),
  own(
    'ignition-textbook-energy',
    'energy of a 6 mH ignition solenoid at 3 A',
    () => ignition.storedEnergy(6e-3, 3) * 1e3,
    27,
    'mJ',
    1e-9,
    'Alexander and Sadiku, Fundamentals of Electric Circuits, example on automobile ignition (section 7.9), read in a reprint',
  ),
  own(
    'ignition-ballast-voltage',
    'voltage across a 1.5 ohm coil behind a 1.5 ohm ballast at 14 V',
    () => ignition.coilVoltage(14, 1.5, 1.5),
    7,
    'V',
    1e-12,
    "Ohm's law, worked by hand",
  ),
  own(
    'ignition-redline',
    'current of a 3 ohm, 8 mH coil at 6000 rpm on eight cylinders, 14 V, 1 ms spark',
    () =>
      ignition.coilChargeAt(6000 * RPM, { primary: points, voltage: 14, sparksPerCycle: 8, sparkDuration: 1e-3 })
        .current,
    2.00768,
    'A',
    1e-5,
    'first set of outside checks, rows C11 and C05 in a row',
  ),
  own('timing-idle', 'starting advance at idle', () => advance(750, 40e3, 'natural'), 14, 'deg', 1e-9, practice),
  own(
    'timing-full-load',
    'starting advance at 3000 rpm and full load',
    () => advance(3000, 101325, 'natural'),
    32,
    'deg',
    1e-9,
    practice,
  ),
  own(
    'timing-boost',
    'starting advance at 4000 rpm and 6 psi: 28 degrees less 1 a psi',
    () => advance(4000, 101325 + 6 * PSI, 'roots'),
    22,
    'deg',
    1e-6,
    practice,
  ),
];
