import { copper, flexibleWireResistance } from '../engineering/wire.ts';
import { crankingCurrent, crankingVoltage, crankingVoltages, voltageDrop } from '../engineering/wiring.ts';
import { kindOf } from './circuits.ts';
import { deadTimeReading } from './injectors.ts';
import { choice, choose, constant, fact, field, figure, writtenIn } from './node.ts';

const HOME = ['electrical.battery', 'electrical'] as const;

export const startingCurrent = field('electrical.battery.cranking-current', 'I_s', {
  value: crankingCurrent.value,
  because: crankingCurrent.source,
});

const batteryVoltage = field('electrical.battery.cranking-voltage', 'U_b', {
  value: crankingVoltage.value,
  because: crankingVoltage.source,
});

/** Resistance of battery cable per meter at 20 degC, ohm/m. */
function resistanceOf(cable: number, unit: string | undefined): number {
  return flexibleWireResistance(cable, kindOf(unit), copper.referenceTemperature);
}

const batteryCable = field('electrical.battery.cable', 'A');
const batteryCableUnit = writtenIn('electrical.battery.cable');
const batteryCableLength = field('electrical.battery.cable-length', 'l');

export const crankingDrop = figure({
  id: 'cranking-drop',
  symbol: 'dU_s',
  name: 'voltage lost in the battery cable while cranking',
  dimension: 'voltage',
  formula: 'I_s R l, copper at 20 degC',
  source: ({ batteryCableUnit }) =>
    batteryCableUnit === 'mm^2'
      ? "Ohm's law; ISO 6722-1 (2011), from memory"
      : "Ohm's law; least copper of SAE J1127, read in secondary copies; IEC 60028; 2 % for stranding",
  home: HOME,
  from: { startingCurrent, batteryCable, batteryCableLength, batteryCableUnit },
  compute: ({ startingCurrent, batteryCable, batteryCableLength, batteryCableUnit }) => {
    const resistancePerMeter = resistanceOf(batteryCable, batteryCableUnit);
    return voltageDrop(
      { resistancePerMeter, length: batteryCableLength, returnLength: 0, connectors: 0 },
      startingCurrent,
    );
  },
});

const computerGround = choice<'battery' | 'engine'>('electrical.computer-ground', 'ground', {
  value: 'engine',
  because: 'the worse case',
});

const noResistance = constant({
  symbol: 'R_g',
  name: 'resistance of the ground path',
  value: 0,
  dimension: 'resistance',
  assumed: 'grounded at the post of the battery',
});

const groundCable = field('electrical.battery.ground-cable', 'A');
const groundCableUnit = writtenIn('electrical.battery.ground-cable');
const groundLength = field('electrical.battery.ground-length', 'l');

const groundResistance = fact({
  id: 'resistance-of-the-ground-cable',
  from: { groundCable, groundCableUnit, groundLength },
  compute: ({ groundCable, groundCableUnit, groundLength }) =>
    resistanceOf(groundCable, groundCableUnit) * groundLength,
});

/** Resistance that the starter's current meets between the computer's ground and the battery, ohm. */
const groundPath = choose({
  id: 'ground-path-of-the-computer',
  from: { computerGround },
  among: ({ computerGround }) => (computerGround === 'battery' ? noResistance : groundResistance),
});

/** The body, where it is part of the way back, is short and wide and left out. */
export const crankingComputerVoltage = figure({
  id: 'cranking-computer-voltage',
  symbol: 'U_crank',
  name: 'voltage at the computer while cranking',
  dimension: 'voltage',
  formula: ({ computerGround }) => (computerGround === 'battery' ? 'U_b' : 'U_b - I_s R l, copper at 20 degC'),
  source: "Ohm's law; the computer's own current is left out",
  home: HOME,
  from: { batteryVoltage, startingCurrent, computerGround, groundPath },
  compute: ({ batteryVoltage, startingCurrent, groundPath }) =>
    crankingVoltages({ battery: batteryVoltage, current: startingCurrent, cable: 0, groundPath }).groundedAtEngine,
});

const reading = deadTimeReading('dead-time-reading-while-cranking', crankingComputerVoltage);

export const crankingDeadTime = figure({
  id: 'cranking-dead-time',
  symbol: 't_d,crank',
  name: 'dead time while cranking',
  dimension: 'time',
  formula: 't_d(U_crank)',
  source: 'the table of the sheet, else with the inverse square of the voltage: common practice',
  home: ['throttle-body.injectors', 'electrical.battery'],
  notes: ({ reading }) => (reading.trust === 'measured' ? [] : ['an estimate, not measured at that voltage']),
  from: { reading },
  compute: ({ reading }) => reading.deadTime,
});
