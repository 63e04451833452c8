import { INCH_OF_MERCURY, PSI } from '../engineering/constants.ts';
import type { FieldPath } from '../sheet/path.ts';
import { formatIn } from '../units/format.ts';
import type { Quantity } from '../units/quantity.ts';
import { pumpCircuit } from './circuits.ts';
import { idlePulse } from './idle-injection.ts';
import {
  airFuelRatioToRead,
  boostToRead,
  chargingVoltageToRead,
  dutyToRead,
  GASOLINE_SCALE,
  lambdaToRead,
  powerToRead,
  pulseToRead,
  vacuumToRead,
} from './measured.ts';
import type { FigureNode } from './node.ts';
import type { ReadField, Reading } from './readings.ts';
import { idleRailPressure, pumpInletPressure, railPressure, returnBackPressure } from './supply.ts';

/** What can be read on the finished car, and the figure it is held against. */
export type Measurable = {
  field: ReadField;
  /** What is read, within a sentence. */
  name: string;
  figure: FigureNode;
  /** How far off the usual instrument may be where the reading has no tolerance: a part of the reading and a fixed part, SI. */
  instrument: { share: number; fixed: number; source: string };
  /** The fields it stands for itself, as they would be written. */
  takes?: (reading: Reading, read: Quantity) => Partial<Record<FieldPath, string>>;
};

const GAUGE = {
  share: 0,
  fixed: 2 * PSI,
  source: '2 % of a gauge to 100 psi; ASME B40.100 (2013) grade B, from memory',
};
const LOW_GAUGE = {
  share: 0,
  fixed: 0.45 * PSI,
  source: '3 % of a gauge to 15 psi; ASME B40.100 (2013) grade B, from memory',
};
const VACUUM_GAUGE = {
  share: 0,
  fixed: INCH_OF_MERCURY,
  source: '3 % of a gauge to 30 inHg; ASME B40.100 (2013) grade B, from memory',
};
const METER = { share: 0.005, fixed: 0.1, source: 'a hand meter and its leads; common practice' };
const CLAMP = { share: 0.03, fixed: 0.3, source: 'a clamp meter; common practice' };
const COMPUTER = { share: 0.05, fixed: 0, source: 'as the computer shows it, from gear to gear; common practice' };
const IDLE = { share: 0.08, fixed: 0, source: 'the load at idle wanders; common practice' };
const SENSOR = { share: 0.03, fixed: 0, source: 'a wide-range oxygen sensor; common practice' };
const DYNO = { share: 0.04, fixed: 0, source: 'a dyno, from day to day; common practice' };

/** A reading in its own unit, without a tolerance. */
function plain({ value, dimension, unit }: Quantity): string {
  return formatIn(value, dimension, unit);
}

export const measurables: readonly Measurable[] = [
  {
    field: 'rail-pressure',
    name: 'fuel pressure at the injectors at full load',
    figure: railPressure,
    instrument: GAUGE,
  },
  {
    field: 'idle-rail-pressure',
    name: 'fuel pressure at the injectors at idle',
    figure: idleRailPressure,
    instrument: GAUGE,
  },
  {
    field: 'pump-inlet-pressure',
    name: 'pressure at the inlet of the pump at full load',
    figure: pumpInletPressure,
    instrument: LOW_GAUGE,
  },
  {
    field: 'return-back-pressure',
    name: 'pressure in the return line',
    figure: returnBackPressure,
    instrument: LOW_GAUGE,
  },
  {
    field: 'charging-voltage',
    name: 'voltage at the battery',
    figure: chargingVoltageToRead,
    instrument: METER,
    takes: (_, read) => ({ 'electrical.charging-voltage': plain(read) }),
  },
  { field: 'pump-voltage', name: 'voltage at the pump', figure: pumpCircuit.voltage, instrument: METER },
  { field: 'pump-current', name: 'current of the pump circuit', figure: pumpCircuit.amps, instrument: CLAMP },
  { field: 'duty', name: 'duty cycle at full load', figure: dutyToRead, instrument: COMPUTER },
  { field: 'pulse-width', name: 'pulse at full load', figure: pulseToRead, instrument: COMPUTER },
  { field: 'idle-pulse-width', name: 'pulse at idle', figure: idlePulse, instrument: IDLE },
  {
    field: 'lambda',
    name: 'lambda at full load',
    figure: lambdaToRead,
    instrument: SENSOR,
    takes: (_, read) => ({ 'stages.lambda': plain(read) }),
  },
  {
    field: 'air-fuel-ratio',
    name: 'air/fuel ratio at full load',
    figure: airFuelRatioToRead,
    instrument: SENSOR,
    takes: (_, { value }) => ({ 'stages.lambda': (value / GASOLINE_SCALE).toFixed(2) }),
  },
  {
    field: 'power',
    name: 'power on the dyno',
    figure: powerToRead,
    instrument: DYNO,
    takes: (reading, read) => ({
      'stages.power': plain(read),
      'stages.power-at': reading['power-at'] ?? 'crank',
      'stages.power-condition': reading['power-condition'] ?? 'as-driven',
    }),
  },
  {
    field: 'boost',
    name: 'boost',
    figure: boostToRead,
    instrument: LOW_GAUGE,
    takes: (_, read) => ({ 'stages.boost': plain(read) }),
  },
  {
    field: 'idle-vacuum',
    name: 'vacuum at idle',
    figure: vacuumToRead,
    instrument: VACUUM_GAUGE,
    takes: (_, read) => ({ 'engine.idle-manifold-pressure': `${plain(read)} vacuum` }),
  },
];
