import { fuseLimit as fuseLimitOf, fuseRating } from '../engineering/fuses.ts';
import { copper, flexibleWireResistance, strandLay } from '../engineering/wire.ts';
import {
  chargingBalance,
  connectorAllowance,
  crankingCurrent,
  smallestArea,
  voltageDrop,
} from '../engineering/wiring.ts';
import { choice, choose, fact, field, figure, limit, optional, writtenIn } from './node.ts';

const HOME = ['electrical.pump-circuit', 'electrical'] as const;
const PUMP_HOME = ['electrical.pump-circuit', 'electrical', 'fuel-system.pump'] as const;

export const chargingVoltage = field('electrical.charging-voltage', 'U_0', {
  value: 13.8,
  because: 'common practice',
});

const pumpWire = field('electrical.pump-circuit.wire', 'A');
const pumpWireUnit = writtenIn('electrical.pump-circuit.wire');
const wireLength = field('electrical.pump-circuit.length', 'l');
const connectors = field('electrical.pump-circuit.connectors', 'U_c', {
  value: connectorAllowance.value,
  because: connectorAllowance.source,
});
const wireTemperature = field('electrical.pump-circuit.wire-temperature', 'T_w', {
  value: 333.15,
  because: 'common practice: 60 degC',
});
export const pumpGround = choice<'chassis' | 'wire-to-battery'>('electrical.pump-circuit.ground', 'ground', {
  value: 'wire-to-battery',
  because: 'the worse case',
});

const onePump = field('fuel-system.pump.current', 'I_1');
export const pumpQuantity = field('fuel-system.pump.quantity', 'n_p', { value: 1, because: 'one pump' });
export const pumpArrangement = choice<
  'single' | 'parallel' | 'staged' | 'spare',
  { pumpQuantity: typeof pumpQuantity }
>('fuel-system.pump.arrangement', 'arrangement', {
  from: { pumpQuantity },
  compute: (values) => (values.pumpQuantity > 1 ? 'parallel' : 'single'),
  because: 'usual for that number of pumps',
});
const sharedCircuit = choice<boolean>('electrical.pump-circuit.shared', 'shared', {
  value: false,
  because: 'a circuit each',
});

const allPumps = fact({
  id: 'current-of-all-pumps',
  from: { onePump, pumpQuantity },
  compute: ({ onePump, pumpQuantity }) => onePump * pumpQuantity,
});

/** Pumps that run at the same time on one circuit load it together. */
export const pumpCircuitCurrent = figure({
  id: 'pump-circuit-current',
  symbol: 'I',
  name: 'current of the pump circuit',
  dimension: 'current',
  formula: ({ together }) => (together ? 'n_p * I_1' : 'I_1'),
  source: 'current balance',
  home: HOME,
  from: {
    together: fact({
      id: 'pumps-share-a-circuit',
      from: { sharedCircuit, pumpArrangement },
      compute: ({ sharedCircuit, pumpArrangement }) => sharedCircuit && pumpArrangement !== 'spare',
    }),
    amps: choose({
      id: 'amps-of-the-circuit',
      from: { sharedCircuit, pumpArrangement },
      among: ({ sharedCircuit, pumpArrangement }) =>
        sharedCircuit && pumpArrangement !== 'spare' ? allPumps : onePump,
    }),
  },
  compute: ({ amps }) => amps,
});

export const wireResistance = figure({
  id: 'wire-resistance',
  symbol: 'R',
  name: 'resistance of the pump wire per meter',
  dimension: 'resistance-per-length',
  formula: ({ pumpWireUnit }) =>
    pumpWireUnit === 'mm^2'
      ? 'ISO 6722-1 table at 20 degC * (1 + 0.00393 (T_w - 20 degC))'
      : '1.02 / (58e6 A_cu) * (1 + 0.00393 (T_w - 20 degC)), A_cu the least copper of the gauge',
  source: ({ pumpWireUnit }) =>
    pumpWireUnit === 'mm^2'
      ? 'ISO 6722-1 (2011), from memory; IEC 60028'
      : 'least copper of SAE J1128, read in secondary copies; IEC 60028; 2 % for stranding',
  home: HOME,
  from: { pumpWire, wireTemperature, pumpWireUnit },
  compute: ({ pumpWire, wireTemperature, pumpWireUnit }) =>
    flexibleWireResistance(pumpWire, kindOf(pumpWireUnit), wireTemperature),
});

function kindOf(unit: string | undefined): 'metric' | 'gauge' {
  return unit === 'mm^2' ? 'metric' : 'gauge';
}

export const pumpCircuitDrop = figure({
  id: 'pump-circuit-drop',
  symbol: 'dU',
  name: 'voltage lost on the way to the pump',
  dimension: 'voltage',
  formula: ({ pumpGround }) => (pumpGround === 'chassis' ? 'I R l + U_c' : 'I R 2 l + U_c'),
  source: "Ohm's law",
  home: HOME,
  notes: ({ pumpGround }) =>
    pumpGround === 'chassis' ? ['the way back through the chassis is taken as part of the connector allowance'] : [],
  from: { pumpCircuitCurrent, wireResistance, wireLength, connectors, pumpGround },
  compute: (v) =>
    voltageDrop(
      {
        resistancePerMeter: v.wireResistance,
        length: v.wireLength,
        returnLength: v.pumpGround === 'chassis' ? 0 : v.wireLength,
        connectors: v.connectors,
      },
      v.pumpCircuitCurrent,
    ),
});

export const pumpCircuitDropShare = figure({
  id: 'pump-circuit-drop-share',
  symbol: 's_U',
  name: 'share of the voltage lost on the way to the pump',
  dimension: 'ratio',
  formula: 'dU / U_0',
  source: 'definition',
  home: HOME,
  from: { pumpCircuitDrop, chargingVoltage },
  compute: ({ pumpCircuitDrop, chargingVoltage }) => pumpCircuitDrop / chargingVoltage,
});

/** Without a described circuit the pump is taken to get the charging voltage less an allowance, V. Common practice. */
const UNDESCRIBED_LOSS = 1;

const knownDrop = optional(pumpCircuitDrop);

export const pumpVoltage = figure({
  id: 'pump-voltage',
  symbol: 'U_p',
  name: 'voltage that arrives at the pump',
  dimension: 'voltage',
  formula: ({ knownDrop }) => (knownDrop === undefined ? 'U_0 - 1 V' : 'U_0 - dU'),
  source: ({ knownDrop }) =>
    knownDrop === undefined
      ? 'common practice, no source: 1 V is allowed for a circuit that the sheet does not describe'
      : "Ohm's law",
  home: PUMP_HOME,
  notes: ({ knownDrop }) =>
    knownDrop === undefined
      ? ['describe `electrical.pump-circuit` and the current of the pump for the real figure']
      : [],
  from: { chargingVoltage, knownDrop },
  compute: ({ chargingVoltage, knownDrop }) => Math.max(0, chargingVoltage - (knownDrop ?? UNDESCRIBED_LOSS)),
});

export const fuseNeeded = figure({
  id: 'fuse-needed',
  symbol: 'F_min',
  name: 'smallest fuse for the pump circuit',
  dimension: 'current',
  formula: 'I / share, rounded up to a blade size',
  source: 'blade sizes ISO 8820-3 (sizes from memory); share common practice',
  home: HOME,
  from: { pumpCircuitCurrent, share: limit('fuse-share') },
  compute: ({ pumpCircuitCurrent, share }) => {
    const fuse = fuseRating(pumpCircuitCurrent, share);
    if (fuse === undefined)
      throw new RangeError('No blade fuse is large enough; split the load over several circuits.');
    return fuse;
  },
});

export const fuseLimit = figure({
  id: 'fuse-limit',
  symbol: 'F_max',
  name: 'largest fuse that protects the pump wire',
  dimension: 'current',
  formula: '0.8 * current the wire carries, rounded down to a blade size',
  source: 'vehicle-wire practice: ABYC E-11, engine spaces, 105 degC, read in secondary copies, partly from memory',
  home: HOME,
  from: { pumpWire, pumpWireUnit },
  compute: ({ pumpWire, pumpWireUnit }) => fuseLimitOf(pumpWire, kindOf(pumpWireUnit)),
});

export const wireNeeded = figure({
  id: 'wire-needed',
  symbol: 'A_min',
  name: 'thinnest wire that keeps the drop within the limit',
  dimension: 'wire-size',
  formula: 'I l_total rho(T_w) / (limit U_0 - U_c)',
  source: "Ohm's law; IEC 60028; limit common practice",
  home: HOME,
  from: {
    pumpCircuitCurrent,
    chargingVoltage,
    allowed: limit('voltage-drop'),
    wireLength,
    connectors,
    wireTemperature,
    pumpGround,
  },
  compute: (v) =>
    smallestArea({
      current: v.pumpCircuitCurrent,
      supply: v.chargingVoltage,
      limit: v.allowed,
      length: v.wireLength,
      returnLength: v.pumpGround === 'chassis' ? 0 : v.wireLength,
      connectors: v.connectors,
      temperature: v.wireTemperature,
      lay: strandLay,
    }),
});

const chargingCurrent = field('electrical.charging-current', 'I_0');
export const otherLoad = field('electrical.other-load', 'I_v', {
  value: 30,
  because: 'common practice: lights, blower, ignition off the computer',
});
export const computerLoad = field('electrical.computer-load', 'I_c', { value: 15, because: 'common practice' });

export const chargingReserve = figure({
  id: 'charging-reserve',
  symbol: 'I_r',
  name: 'what the alternator has left',
  dimension: 'current',
  formula: 'I_0 - I - I_v - I_c',
  source: 'current balance',
  home: ['electrical'],
  from: { chargingCurrent, pumpCircuitCurrent, otherLoad, computerLoad },
  compute: (v) => chargingBalance(v.chargingCurrent, [v.pumpCircuitCurrent, v.otherLoad, v.computerLoad]).reserve,
});

export const startingCurrent = field('electrical.battery.cranking-current', 'I_s', {
  value: crankingCurrent.value,
  because: crankingCurrent.source,
});
const batteryCable = field('electrical.battery.cable', 'A');
const batteryCableUnit = writtenIn('electrical.battery.cable');
const batteryCableLength = field('electrical.battery.cable-length', 'l');

/** The way back through block and body is short and wide and left out. */
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
  home: ['electrical.battery', 'electrical'],
  from: { startingCurrent, batteryCable, batteryCableLength, batteryCableUnit },
  compute: ({ startingCurrent, batteryCable, batteryCableLength, batteryCableUnit }) => {
    const perMeter = flexibleWireResistance(batteryCable, kindOf(batteryCableUnit), copper.referenceTemperature);
    const cable = { resistancePerMeter: perMeter, length: batteryCableLength, returnLength: 0, connectors: 0 };
    return voltageDrop(cable, startingCurrent);
  },
});
