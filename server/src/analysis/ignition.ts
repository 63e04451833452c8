import { coilChargeAt, coilVoltage as coilVoltageOf, finalCurrent, timeToCurrent } from '../engineering/ignition.ts';
import { cylinders, redline } from './engine.ts';
import { choice, fact, field, figure, optional } from './node.ts';

const HOME = ['ignition.coil', 'ignition'] as const;

const resistance = field('ignition.coil.resistance', 'R');
const inductance = field('ignition.coil.inductance', 'L');
const supply = optional(choice<string>('ignition.supply', 'supply'));

/** Whether the coil is fed through a ballast or resistance wire. */
const hasBallast = (supply: string | undefined) => supply === 'ballast-resistor' || supply === 'resistance-wire';

export const ballast = field('ignition.coil.ballast', 'R_b', {
  from: { supply },
  compute: ({ supply }) => (hasBallast(supply) ? 1.4 : 0),
  because: ({ supply }) => (hasBallast(supply) ? 'usual ballast, common practice' : 'full voltage'),
});
const voltage = field('electrical.charging-voltage', 'U', { value: 13.8, because: 'common practice' });

const charge = fact({
  id: 'coil-charge-at-redline',
  from: { voltage, resistance, inductance, ballast, redline, cylinders },
  compute: ({ voltage, resistance, inductance, ballast, redline, cylinders }) =>
    coilChargeAt(redline, { primary: { resistance, inductance }, voltage, sparksPerCycle: cylinders, ballast }),
});

const dwell = fact({
  id: 'dwell-at-redline',
  from: { redline, cylinders },
  compute: ({ redline, cylinders }) =>
    coilChargeAt(redline, {
      primary: { resistance: 1, inductance: 1 },
      voltage: 1,
      sparksPerCycle: cylinders,
      ballast: 0,
    }).dwell,
});

export const dwellAvailable = figure({
  id: 'dwell-available',
  symbol: 't_dwell',
  name: 'time to charge the coil at redline',
  dimension: 'time',
  formula: '2 / (N_r n_cyl) - 1 ms of spark',
  source: 'kinematics, one coil; spark duration common practice, from memory',
  home: HOME,
  from: { dwell },
  compute: ({ dwell }) => dwell,
});

export const coilCurrentAtRedline = figure({
  id: 'coil-current-redline',
  symbol: 'I_r',
  name: 'coil current reached at redline',
  dimension: 'current',
  formula: 'U / (R + R_b) * (1 - exp(-t_dwell (R + R_b) / L))',
  source: 'series RL circuit',
  home: ['ignition.coil', 'ignition', 'engine.redline'],
  from: { charge },
  compute: ({ charge }) => charge.current,
});

export const coilEnergyAtRedline = figure({
  id: 'coil-energy-redline',
  symbol: 'E_r',
  name: 'energy stored in the coil at redline',
  dimension: 'energy',
  formula: 'L I_r^2 / 2',
  source: 'energy of an inductance',
  home: HOME,
  from: { charge },
  compute: ({ charge }) => charge.energy,
});

export const steadyCoilCurrent = figure({
  id: 'coil-current-steady',
  symbol: 'I_end',
  name: 'coil current with all the time in the world',
  dimension: 'current',
  formula: 'U / (R + R_b)',
  source: "Ohm's law",
  home: HOME,
  from: { voltage, resistance, ballast },
  compute: ({ voltage, resistance, ballast }) => finalCurrent(voltage, resistance, ballast),
});

export const coilVoltage = figure({
  id: 'coil-voltage',
  symbol: 'U_coil',
  name: 'voltage left at the coil once its current is steady',
  dimension: 'voltage',
  formula: 'U R / (R + R_b)',
  source: "Ohm's law",
  home: HOME,
  from: { voltage, resistance, ballast },
  compute: ({ voltage, resistance, ballast }) => coilVoltageOf(voltage, resistance, ballast),
});

const workingCurrent = field('ignition.coil.working-current', 'I');

export const coilChargeTime = figure({
  id: 'coil-charge-time',
  symbol: 't_charge',
  name: 'time the coil needs to its working current',
  dimension: 'time',
  formula: '-L / (R + R_b) ln(1 - I (R + R_b) / U)',
  source: 'series RL circuit',
  home: HOME,
  from: { workingCurrent, voltage, resistance, inductance, ballast },
  compute: ({ workingCurrent, voltage, resistance, inductance, ballast }) =>
    timeToCurrent(workingCurrent, voltage, { resistance, inductance }, ballast),
});
