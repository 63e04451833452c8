import { coilChargeAt, coilVoltage, finalCurrent, timeToCurrent } from '../engineering/ignition.ts';
import { startingAdvance, startingTiming, TIMING_CAUTION } from '../engineering/timing.ts';
import type { AirTerms } from './air.ts';
import type { Worksheet } from './worksheet.ts';

const HOME = ['ignition.coil', 'ignition'];

/** Charge of the coil at redline, what a ballast costs, and figures to start timing from. */
export function ignitionFigures(w: Worksheet, air: AirTerms): void {
  const resistance = w.given('ignition.coil.resistance', 'R');
  const inductance = w.given('ignition.coil.inductance', 'L');
  const ballast = w.given('ignition.coil.ballast', 'R_b', ballastOtherwise(w));
  const voltage = w.given('electrical.charging-voltage', 'U', { value: 13.8, because: 'common practice' });
  const redline = w.given('engine.redline', 'N_r');
  const cylinders = w.given('engine.cylinders', 'n_cyl');
  const charge = [voltage, resistance, inductance, ballast, redline, cylinders] as const;
  const chargeAt = (u: number, r: number, l: number, rb: number, speed: number, sparks: number) =>
    coilChargeAt(speed, { primary: { resistance: r, inductance: l }, voltage: u, sparksPerCycle: sparks, ballast: rb });
  w.figure(
    {
      id: 'dwell-available',
      symbol: 't_dwell',
      name: 'time to charge the coil at redline',
      dimension: 'time',
      formula: '2 / (N_r n_cyl) - 1 ms of spark',
      source: 'kinematics, one coil; spark duration common practice, from memory',
      home: HOME,
    },
    charge,
    (...terms) => chargeAt(...terms).dwell,
  );
  w.figure(
    {
      id: 'coil-current-redline',
      symbol: 'I_r',
      name: 'coil current reached at redline',
      dimension: 'current',
      formula: 'U / (R + R_b) * (1 - exp(-t_dwell (R + R_b) / L))',
      source: 'series RL circuit',
      home: [...HOME, 'engine.redline'],
    },
    charge,
    (...terms) => chargeAt(...terms).current,
  );
  w.figure(
    {
      id: 'coil-energy-redline',
      symbol: 'E_r',
      name: 'energy stored in the coil at redline',
      dimension: 'energy',
      formula: 'L I_r^2 / 2',
      source: 'energy of an inductance',
      home: HOME,
    },
    charge,
    (...terms) => chargeAt(...terms).energy,
  );
  w.figure(
    {
      id: 'coil-current-steady',
      symbol: 'I_end',
      name: 'coil current with all the time in the world',
      dimension: 'current',
      formula: 'U / (R + R_b)',
      source: "Ohm's law",
      home: HOME,
    },
    [voltage, resistance, ballast],
    finalCurrent,
  );
  w.figure(
    {
      id: 'coil-voltage',
      symbol: 'U_coil',
      name: 'voltage left at the coil once its current is steady',
      dimension: 'voltage',
      formula: 'U R / (R + R_b)',
      source: "Ohm's law",
      home: HOME,
    },
    [voltage, resistance, ballast],
    coilVoltage,
  );
  w.figure(
    {
      id: 'coil-charge-time',
      symbol: 't_charge',
      name: 'time the coil needs to its working current',
      dimension: 'time',
      formula: '-L / (R + R_b) ln(1 - I (R + R_b) / U)',
      source: 'series RL circuit',
      home: HOME,
    },
    [w.given('ignition.coil.working-current', 'I'), voltage, resistance, inductance, ballast],
    (current, u, r, l, rb) => timeToCurrent(current, u, { resistance: r, inductance: l }, rb),
  );
  timingFigures(w, air);
}

function ballastOtherwise(w: Worksheet) {
  const supply = w.stage.values.ignition?.supply;
  return supply === 'ballast-resistor' || supply === 'resistance-wire'
    ? { value: 1.4, because: 'usual ballast, common practice' }
    : { value: 0, because: 'full voltage' };
}

function timingFigures(w: Worksheet, air: AirTerms): void {
  const timing = startingTiming(air.induction);
  const idle = w.given('engine.idle', 'N_i');
  const peak = w.given('engine.peak-power-speed', 'N_p');
  const induction = w.choice('stage.induction', 'induction', air.induction);
  const source = 'common practice for pump fuel, no source';
  const home = ['ignition.total-timing', 'ignition'];
  const figure = (id: string, name: string, formula: string, notes: string[] = []) => ({
    id,
    symbol: 'adv',
    name,
    dimension: 'angle' as const,
    formula,
    source,
    home,
    notes: [TIMING_CAUTION, ...notes],
  });
  w.figure(
    figure('timing-idle', 'timing at idle to start from', 'usual for the induction'),
    [induction],
    () => timing.idle,
  );
  w.figure(
    figure('timing-cruise', 'timing at cruise to start from', 'usual for the induction'),
    [induction],
    () => timing.cruise,
  );
  const own = w.given('ignition.total-timing', 'adv_own', { value: timing.fullLoad, because: source });
  const perBoost = w.given('ignition.retard-per-boost', 'r_b', { value: timing.retardPerBoost, because: source });
  w.figure(
    figure('timing-full-load', 'timing at full load to start from', 'adv_own - r_b * boost', [
      'before top dead center, at peak-power speed',
    ]),
    [own, perBoost, idle, peak, air.manifoldPressure, air.ambient],
    (full, retard, idleSpeed, speed, manifoldPressure, ambient) =>
      startingAdvance(
        { ...timing, fullLoad: full, retardPerBoost: retard },
        { speed, idleSpeed, manifoldPressure, ambient },
      ),
  );
}
