import { deadTimeEstimate, deadTimeFromTable } from '../../server/src/engineering/dead-time.ts';
import { idleAirFlow, smallestFlow } from '../../server/src/engineering/idle.ts';
import * as injectors from '../../server/src/engineering/injectors.ts';
import { type Check, fromFirstSet, ownCheck } from './check.ts';
import { HORSEPOWER, POUND_PER_HORSEPOWER_HOUR, POUND_PER_HOUR, PSI, RPM } from './units.ts';

const topic = 'injectors';
const first = (id: string, got: () => number) => fromFirstSet(id, 4, topic, got);
const own = ownCheck(4, topic);

const ambient = 101325;
const place = (where: injectors.DischargePlace, path: injectors.InductionPath, boost: number, manifold: number) =>
  injectors.dischargePressure({ place: where, path, boost, manifoldPressure: manifold, ambient });
const across = (rail: number, discharge: number) => injectors.pressureAcross(rail, ambient, discharge);
const dutyAt = (flow: number, staticFlow: number, pulsesPerCycle: number) =>
  injectors.duty(flow * POUND_PER_HOUR, {
    staticFlow: staticFlow * POUND_PER_HOUR,
    deadTime: 0.9e-3,
    speed: 5500 * RPM,
    pulsesPerCycle,
  });

const balance = 'pressure balance, worked by hand';
const kinematics = 'kinematics of the four-stroke cycle, worked by hand';

export const checks: Check[] = [
  first('I02', () => injectors.staticFlow(42, 43.5, 58)),
  first('I03', () => injectors.staticFlow(80, 43.5, 15)),
  first('I04', () => across(400e3, place('below-throttle', 'natural', 0, 35e3)) / 1e3),
  first('I05', () => injectors.staticFlow(1, 400e3, across(400e3, place('below-throttle', 'natural', 0, 35e3)))),
  first('I06', () => across(400e3, place('above-throttle', 'natural', 0, 35e3)) / 1e3),
  first('I07', () => injectors.pressureForFlow(60, 55, 43.5)),
  first(
    'I08',
    () =>
      injectors.requiredStaticFlow((400 * HORSEPOWER * 0.5 * POUND_PER_HORSEPOWER_HOUR) / 8, 0.85, {
        deadTime: 0,
        speed: 100,
        pulsesPerCycle: 1,
      }) / POUND_PER_HOUR,
  ),
  first('I11', () => injectors.pulsePeriod(6000 * RPM, injectors.pulsesPerCycle('twice-per-cycle', 8)) * 1e3),
  first('I13', () => injectors.duty(0.75, { staticFlow: 1, deadTime: 0, speed: 100, pulsesPerCycle: 1 })),
  first('I15', () => dutyAt(25, 40, injectors.pulsesPerCycle('once-per-cycle', 8))),
  first('I16', () => dutyAt(25, 40, injectors.pulsesPerCycle('twice-per-cycle', 8))),
  first('I17', () => dutyAt(50, 80, injectors.pulsesPerCycle('every-ignition-event', 8))),
  first(
    'I18',
    () =>
      injectors.pulseWidth(4e-3 / 14.7 / 4, {
        staticFlow: 80 * POUND_PER_HOUR,
        deadTime: 1e-3,
        speed: 700 * RPM,
        pulsesPerCycle: 1,
      }) * 1e3,
  ),
  first('B07', () => injectors.railPressure(58 * PSI, ambient + 10 * PSI, ambient) / PSI),
  first('B08', () => {
    const discharge = place('above-throttle', 'blow-through', 10 * PSI, ambient + 10 * PSI);
    return injectors.staticFlow(1, 58 * PSI, across(58 * PSI, discharge));
  }),
  own(
    'injectors-draw-through-above',
    'pressure at a tip above the plates over a blower that makes 8 psi',
    () => place('above-throttle', 'draw-through', 8 * PSI, ambient + 8 * PSI),
    ambient,
    'Pa',
    1e-12,
    balance,
  ),
  own(
    'injectors-draw-through-below',
    'pressure at a tip between the plates and a blower that makes 8 psi: no boost',
    () => place('below-throttle', 'draw-through', 8 * PSI, ambient + 8 * PSI),
    ambient,
    'Pa',
    1e-12,
    balance,
  ),
  own(
    'injectors-blow-through-referenced',
    'pressure across with 58 psi referenced 1:1 to 12 psi of boost, blow-through',
    () =>
      across(
        injectors.railPressure(58 * PSI, ambient + 12 * PSI, ambient),
        place('above-throttle', 'blow-through', 12 * PSI, ambient + 12 * PSI),
      ) / PSI,
    58,
    'psi',
    1e-9,
    balance,
  ),
  own(
    'injectors-alternating',
    'pulses a cycle of one of two alternating banks on eight cylinders',
    () => injectors.pulsesPerCycle('alternating', 8),
    4,
    '-',
    0,
    kinematics,
  ),
  own(
    'injectors-required',
    'static flow for 50 lb/h at 85 % duty, one pulse per ignition event, 8 cylinders, 5500 rpm, 0.9 ms dead time',
    () => injectors.requiredStaticFlow(50, 0.85, { deadTime: 0.9e-3, speed: 5500 * RPM, pulsesPerCycle: 8 }),
    96.154,
    'lb/h',
    1e-4,
    'worked by hand: 50 / (0.85 - 0.33)',
  ),
  own(
    'injectors-alcohol-density',
    'mass flow of an injector rated on n-heptane (684 kg/m3 at 20 degC) when it meters 789 kg/m3',
    () => injectors.staticFlow(1, 3e5, 3e5, { density: 789, ratedDensity: 684 }),
    1.074,
    '-',
    1e-3,
    'orifice equation by hand: sqrt(789 / 684)',
  ),
  own(
    'injectors-idle-air',
    'idle air of 350 cubic inches at 700 rpm, 40 kPa, 40 degC, VE 0.5',
    () => idleAirFlow({ displacement: 350 * 0.0254 ** 3, speed: 700 * RPM }) * 1e3,
    7.444,
    'g/s',
    1e-3,
    'worked by hand: 5.7355 L * 5.8333 / s * 0.5 * 0.44500 kg/m3',
  ),
  own(
    'injectors-smallest-flow',
    'smallest flow of 80 lb/h at 700 rpm, one pulse a cycle, shortest pulse 1.5 ms, dead time 1.0 ms',
    () => smallestFlow(1.5e-3, { staticFlow: 80, deadTime: 1e-3, speed: 700 * RPM, pulsesPerCycle: 1 }),
    80 * (0.5 / 171.42857),
    'lb/h',
    1e-6,
    kinematics,
  ),
  own(
    'injectors-dead-time-table',
    'dead time at 12.6 V between 1.05 ms at 12 V and 0.80 ms at 14 V',
    () =>
      deadTimeFromTable(12.6, [
        { voltage: 10, deadTime: 1.5 },
        { voltage: 12, deadTime: 1.05 },
        { voltage: 14, deadTime: 0.8 },
      ]).deadTime,
    0.975,
    'ms',
    1e-12,
    'linear interpolation, worked by hand',
  ),
  own(
    'injectors-dead-time-estimate',
    'dead time at 12 V over that at 14 V: about a third more',
    () => deadTimeEstimate(12, { voltage: 14, deadTime: 1 }),
    1.33,
    '-',
    0.05,
    'common practice, from memory of measured tables',
  ),
];
