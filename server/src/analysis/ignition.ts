import { coilFeedLoss, coilSupply, sparksPerCoil, steadyHeat } from '../engineering/coil.ts';
import {
  coilCurrent,
  coilVoltage as coilVoltageOf,
  dwellAvailable as dwellOf,
  finalCurrent,
  storedEnergy,
  timeToCurrent,
} from '../engineering/ignition.ts';
import { cylinders, redline } from './engine.ts';
import { choice, fact, field, figure, optional } from './node.ts';

const HOME = ['ignition.coil', 'ignition'] as const;

const resistance = field('ignition.coil.resistance', 'R');
const inductance = field('ignition.coil.inductance', 'L');
const coils = field('ignition.coil.quantity', 'n_coil', { value: 1, because: 'one coil and a distributor' });
const supply = optional(choice<string>('ignition.supply', 'supply'));

/** Whether the coil is fed through a ballast or resistance wire. */
const hasBallast = (supply: string | undefined) => supply === 'ballast-resistor' || supply === 'resistance-wire';

export const ballast = field('ignition.coil.ballast', 'R_b', {
  from: { supply },
  compute: ({ supply }) => (hasBallast(supply) ? 1.4 : 0),
  because: ({ supply }) => (hasBallast(supply) ? 'usual ballast, common practice' : 'full voltage'),
});
const charging = field('electrical.charging-voltage', 'U', { value: 13.8, because: 'common practice' });
const feedLoss = field('ignition.feed-loss', 'U_d', { value: coilFeedLoss.value, because: coilFeedLoss.source });

/** Voltage that charges the coil, V. */
export const voltageAtCoil = fact({
  id: 'voltage-that-charges-the-coil',
  from: { charging, feedLoss },
  compute: ({ charging, feedLoss }) => coilSupply(charging, feedLoss),
});

/** Sparks of one coil in a cycle. */
export const sparks = fact({
  id: 'sparks-per-coil',
  from: { cylinders, coils },
  compute: ({ cylinders, coils }) => sparksPerCoil(cylinders, coils),
});

export const dwellAvailable = figure({
  id: 'dwell-available',
  symbol: 't_dwell',
  name: 'time to charge the coil at redline',
  dimension: 'time',
  formula: '2 n_coil / (N_r n_cyl) - 1 ms of spark',
  source: 'kinematics; spark duration common practice, from memory',
  home: HOME,
  from: { redline, sparks },
  compute: ({ redline, sparks }) => dwellOf(redline, sparks),
});

export const coilCurrentAtRedline = figure({
  id: 'coil-current-redline',
  symbol: 'I_r',
  name: 'coil current reached at redline',
  dimension: 'current',
  formula: '(U - U_d) / (R + R_b) * (1 - exp(-t_dwell (R + R_b) / L))',
  source: 'series RL circuit',
  home: ['ignition.coil', 'ignition', 'engine.redline'],
  from: { voltage: voltageAtCoil, resistance, inductance, ballast, dwellAvailable },
  compute: ({ voltage, resistance, inductance, ballast, dwellAvailable }) =>
    coilCurrent(voltage, { resistance, inductance }, dwellAvailable, ballast),
});

const workingCurrent = field('ignition.coil.working-current', 'I');
const heldAt = optional(workingCurrent);

export const coilEnergyAtRedline = figure({
  id: 'coil-energy-redline',
  symbol: 'E_r',
  name: 'energy stored in the coil at redline',
  dimension: 'energy',
  formula: ({ heldAt }) => (heldAt === undefined ? 'L I_r^2 / 2' : 'L min(I_r, I)^2 / 2'),
  source: 'energy of an inductance; a driver holds the coil at its working current',
  home: HOME,
  from: { inductance, coilCurrentAtRedline, heldAt },
  compute: ({ inductance, coilCurrentAtRedline, heldAt }) =>
    storedEnergy(inductance, Math.min(coilCurrentAtRedline, heldAt ?? coilCurrentAtRedline)),
});

export const steadyCoilCurrent = figure({
  id: 'coil-current-steady',
  symbol: 'I_end',
  name: 'coil current with all the time in the world, were nothing to limit it',
  dimension: 'current',
  formula: '(U - U_d) / (R + R_b)',
  source: "Ohm's law",
  home: HOME,
  from: { voltage: voltageAtCoil, resistance, ballast },
  compute: ({ voltage, resistance, ballast }) => finalCurrent(voltage, resistance, ballast),
});

export const coilHeat = figure({
  id: 'coil-heat',
  symbol: 'P_coil',
  name: 'heat in the coil with key on and engine still, were nothing to limit its current',
  dimension: 'heat',
  formula: 'I_end^2 R',
  source: "Ohm's and Joule's laws",
  home: HOME,
  from: { voltage: voltageAtCoil, resistance, ballast },
  compute: ({ voltage, resistance, ballast }) => steadyHeat(voltage, resistance, ballast).coil,
});

export const ballastHeat = figure({
  id: 'ballast-heat',
  symbol: 'P_b',
  name: 'heat in the ballast with key on and engine still',
  dimension: 'heat',
  formula: 'I_end^2 R_b',
  source: "Ohm's and Joule's laws",
  home: HOME,
  when: fact({ id: 'has-ballast', from: { ballast }, compute: ({ ballast }) => ballast > 0 }),
  from: { voltage: voltageAtCoil, resistance, ballast },
  compute: ({ voltage, resistance, ballast }) => steadyHeat(voltage, resistance, ballast).ballast,
});

export const coilVoltage = figure({
  id: 'coil-voltage',
  symbol: 'U_coil',
  name: 'voltage left at the coil once its current is steady',
  dimension: 'voltage',
  formula: '(U - U_d) R / (R + R_b)',
  source: "Ohm's law",
  home: HOME,
  from: { voltage: voltageAtCoil, resistance, ballast },
  compute: ({ voltage, resistance, ballast }) => coilVoltageOf(voltage, resistance, ballast),
});

export const coilChargeTime = figure({
  id: 'coil-charge-time',
  symbol: 't_charge',
  name: 'time the coil needs to its working current',
  dimension: 'time',
  formula: '-L / (R + R_b) ln(1 - I (R + R_b) / (U - U_d))',
  source: 'series RL circuit',
  home: HOME,
  from: { workingCurrent, voltage: voltageAtCoil, resistance, inductance, ballast },
  compute: ({ workingCurrent, voltage, resistance, inductance, ballast }) =>
    timeToCurrent(workingCurrent, voltage, { resistance, inductance }, ballast),
});
