import { fuseLimit, fuseRating } from '../engineering/fuses.ts';
import { copper, flexibleWireResistance, strandLay } from '../engineering/wire.ts';
import {
  chargingBalance,
  connectorAllowance,
  crankingCurrent,
  smallestArea,
  voltageDrop,
} from '../engineering/wiring.ts';
import type { Maybe } from './figure.ts';
import type { Worksheet } from './worksheet.ts';

const HOME = ['electrical.pump-circuit', 'electrical'];

export type ElectricalTerms = { pumpVoltage: Maybe };

/** Current, voltage, fuse and wire of the pump circuit, and the charging balance. */
export function electricalFigures(w: Worksheet): ElectricalTerms {
  const pumpCurrent = circuitCurrent(w);
  const charging = w.given('electrical.charging-voltage', 'U_0', { value: 13.8, because: 'common practice' });
  const circuit = w.stage.values.electrical?.['pump-circuit'];
  const wire = w.given('electrical.pump-circuit.wire', 'A');
  const length = w.given('electrical.pump-circuit.length', 'l');
  const connectors = w.given('electrical.pump-circuit.connectors', 'U_c', {
    value: connectorAllowance.value,
    because: connectorAllowance.source,
  });
  const temperature = w.given('electrical.pump-circuit.wire-temperature', 'T_w', {
    value: 333.15,
    because: 'common practice: 60 degC',
  });
  const isMetric = circuit?.wire?.unit === 'mm^2';
  const byChassis = circuit?.ground === 'chassis';
  const ground = w.choice(
    'electrical.pump-circuit.ground',
    'ground',
    circuit?.ground ?? 'wire-to-battery',
    circuit?.ground ? undefined : 'the worse case',
  );
  const resistance = w.figure(
    {
      id: 'wire-resistance',
      symbol: 'R',
      name: 'resistance of the pump wire per meter',
      dimension: 'resistance-per-length',
      formula: isMetric
        ? 'ISO 6722-1 table at 20 degC * (1 + 0.00393 (T_w - 20 degC))'
        : '1.02 / (58e6 A_cu) * (1 + 0.00393 (T_w - 20 degC)), A_cu the least copper of the gauge',
      source: isMetric
        ? 'ISO 6722-1 (2011), from memory; IEC 60028'
        : 'least copper of SAE J1128, read in secondary copies; IEC 60028; 2 % for stranding',
      home: HOME,
    },
    [wire, temperature],
    (area, kelvin) => flexibleWireResistance(area, isMetric ? 'metric' : 'gauge', kelvin),
  );
  const drop = w.figure(
    {
      id: 'pump-circuit-drop',
      symbol: 'dU',
      name: 'voltage lost on the way to the pump',
      dimension: 'voltage',
      formula: byChassis ? 'I R l + U_c' : 'I R 2 l + U_c',
      source: "Ohm's law",
      home: HOME,
      notes: byChassis ? ['the way back through the chassis is taken as part of the connector allowance'] : [],
    },
    [pumpCurrent, resistance, length, connectors, ground],
    (current, perMeter, way, contacts) =>
      voltageDrop(
        { resistancePerMeter: perMeter, length: way, returnLength: byChassis ? 0 : way, connectors: contacts },
        current,
      ),
  );
  w.figure(
    {
      id: 'pump-circuit-drop-share',
      symbol: 's_U',
      name: 'share of the voltage lost on the way to the pump',
      dimension: 'ratio',
      formula: 'dU / U_0',
      source: 'definition',
      home: HOME,
    },
    [drop, charging],
    (lost, supply) => lost / supply,
  );
  const pumpVoltage = w.figure(
    {
      id: 'pump-voltage',
      symbol: 'U_p',
      name: 'voltage that arrives at the pump',
      dimension: 'voltage',
      formula: 'U_0 - dU',
      source: "Ohm's law",
      home: [...HOME, 'fuel-system.pump'],
    },
    [charging, drop],
    (supply, lost) => Math.max(0, supply - lost),
  );
  fuseFigures(w, pumpCurrent, wire);
  w.figure(
    {
      id: 'wire-needed',
      symbol: 'A_min',
      name: 'thinnest wire that keeps the drop within the limit',
      dimension: 'wire-size',
      formula: 'I l_total rho(T_w) / (limit U_0 - U_c)',
      source: "Ohm's law; IEC 60028; limit common practice",
      home: HOME,
    },
    [pumpCurrent, charging, w.limit('voltage-drop'), length, connectors, temperature, ground],
    (current, supply, limit, way, contacts, kelvin) =>
      smallestArea({
        current,
        supply,
        limit,
        length: way,
        returnLength: byChassis ? 0 : way,
        connectors: contacts,
        temperature: kelvin,
        lay: strandLay,
      }),
  );
  chargingFigures(w, pumpCurrent);
  crankingFigures(w);
  return { pumpVoltage: 'value' in pumpVoltage ? pumpVoltage : supplyInstead(w, charging) };
}

/** Without a described circuit the pump is taken to get the charging voltage less the connector allowance. */
function supplyInstead(w: Worksheet, charging: Maybe): Maybe {
  return w.figure(
    {
      id: 'pump-voltage',
      symbol: 'U_p',
      name: 'voltage that arrives at the pump',
      dimension: 'voltage',
      formula: 'U_0 - 1 V',
      source: 'common practice, no source: 1 V is allowed for a circuit that the sheet does not describe',
      home: [...HOME, 'fuel-system.pump'],
      notes: ['describe `electrical.pump-circuit` and the current of the pump for the real figure'],
    },
    [charging],
    (supply) => Math.max(0, supply - 1),
  );
}

/** Pumps that run at the same time on one circuit load it together. */
function circuitCurrent(w: Worksheet): Maybe {
  const pump = w.stage.values['fuel-system']?.pump;
  const one = w.given('fuel-system.pump.current', 'I_1');
  const quantity = w.given('fuel-system.pump.quantity', 'n_p', { value: 1, because: 'one pump' });
  const shared = w.stage.values.electrical?.['pump-circuit']?.shared ?? false;
  const together = shared && pump?.arrangement !== 'spare';
  const sharedTerm = w.choice('electrical.pump-circuit.shared', 'shared', shared ? 'one circuit' : 'a circuit each');
  return w.figure(
    {
      id: 'pump-circuit-current',
      symbol: 'I',
      name: 'current of the pump circuit',
      dimension: 'current',
      formula: together ? 'n_p * I_1' : 'I_1',
      source: 'current balance',
      home: HOME,
    },
    [one, quantity, sharedTerm],
    (current, count) => (together ? count : 1) * current,
  );
}

function fuseFigures(w: Worksheet, current: Maybe, wire: Maybe): void {
  w.figure(
    {
      id: 'fuse-needed',
      symbol: 'F_min',
      name: 'smallest fuse for the pump circuit',
      dimension: 'current',
      formula: 'I / share, rounded up to a blade size',
      source: 'blade sizes ISO 8820-3 (sizes from memory); share common practice',
      home: HOME,
    },
    [current, w.limit('fuse-share')],
    (amps, share) => {
      const fuse = fuseRating(amps, share);
      if (fuse === undefined)
        throw new RangeError('No blade fuse is large enough; split the load over several circuits.');
      return fuse;
    },
  );
  w.figure(
    {
      id: 'fuse-limit',
      symbol: 'F_max',
      name: 'largest fuse that protects the pump wire',
      dimension: 'current',
      formula: '0.8 * current the wire carries, rounded down to a blade size',
      source: 'vehicle-wire practice: ABYC E-11, engine spaces, 105 degC, read in secondary copies, partly from memory',
      home: HOME,
    },
    [wire],
    (size) => fuseLimit(size, w.stage.values.electrical?.['pump-circuit']?.wire?.unit === 'AWG' ? 'gauge' : 'metric'),
  );
}

function chargingFigures(w: Worksheet, pump: Maybe): void {
  const output = w.given('electrical.charging-current', 'I_0');
  const other = w.given('electrical.other-load', 'I_v', {
    value: 30,
    because: 'common practice: lights, blower, ignition off the computer',
  });
  const computer = w.given('electrical.computer-load', 'I_c', { value: 15, because: 'common practice' });
  w.figure(
    {
      id: 'charging-reserve',
      symbol: 'I_r',
      name: 'what the alternator has left',
      dimension: 'current',
      formula: 'I_0 - I - I_v - I_c',
      source: 'current balance',
      home: ['electrical'],
    },
    [output, pump, other, computer],
    (gives, ...loads) => chargingBalance(gives, loads).reserve,
  );
}

/** The way back through block and body is short and wide and left out. */
function crankingFigures(w: Worksheet): void {
  const battery = w.stage.values.electrical?.battery;
  const isMetric = battery?.cable?.unit === 'mm^2';
  const current = w.given('electrical.battery.cranking-current', 'I_s', {
    value: crankingCurrent.value,
    because: crankingCurrent.source,
  });
  w.figure(
    {
      id: 'cranking-drop',
      symbol: 'dU_s',
      name: 'voltage lost in the battery cable while cranking',
      dimension: 'voltage',
      formula: 'I_s R l, copper at 20 degC',
      source: isMetric
        ? "Ohm's law; ISO 6722-1 (2011), from memory"
        : "Ohm's law; least copper of SAE J1127, read in secondary copies; IEC 60028; 2 % for stranding",
      home: ['electrical.battery', 'electrical'],
    },
    [current, w.given('electrical.battery.cable', 'A'), w.given('electrical.battery.cable-length', 'l')],
    (amps, area, length) => {
      const perMeter = flexibleWireResistance(area, isMetric ? 'metric' : 'gauge', copper.referenceTemperature);
      return voltageDrop({ resistancePerMeter: perMeter, length, returnLength: 0, connectors: 0 }, amps);
    },
  );
}
