import { fuseLimit as fuseLimitOf, fuseRating } from '../engineering/fuses.ts';
import { flexibleWireResistance, thinnestWire, type WireKind } from '../engineering/wire.ts';
import { chassisAllowance, circuitAllowance, largestResistance, voltageDrop } from '../engineering/wiring.ts';
import type { FieldPath } from '../sheet/path.ts';
import { chargingVoltage } from './charging.ts';
import { hasFan, hasLiftPump, liftPumpLoad, pumpCircuitLoad, statedFanLoad } from './loads.ts';
import { choice, field, figure, limit, type Node, optional, writtenIn } from './node.ts';

/** What hangs on a circuit of its own from the battery. */
export type Load = 'pump' | 'lift-pump' | 'fan';

/** Without a described circuit its load is taken to get the charging voltage less an allowance, V. Common practice. */
const UNDESCRIBED_LOSS = 1;

/** How a wire of the sheet is counted: by gauge, unless it is written in mm2. */
export function kindOf(unit: string | undefined): WireKind {
  return unit === 'mm^2' ? 'metric' : 'gauge';
}

type Ground = 'chassis' | 'wire-to-battery';

/** Length of the wire both ways, m; the chassis is no wire. */
function wayBack(ground: Ground, length: number): number {
  return ground === 'chassis' ? 0 : length;
}

/** One circuit: its load, what that is called, where its figures belong, what it draws, and what the sheet says of it. */
function described<const L extends Load>(load: L, word: string, drawn: Node<number>, when?: Node<boolean>) {
  const path = `electrical.${load as Load}-circuit` as const;
  const home: readonly FieldPath[] = [path, 'electrical'];
  const about = { home, ...(when && { when }) };
  const amps = figure({
    ...about,
    home: load === 'pump' ? [...home, 'measured.pump-current'] : home,
    id: `${load}-circuit-current`,
    symbol: 'I',
    name: `current of the ${word}'s circuit`,
    dimension: 'current',
    formula: load === 'pump' ? 'sum of the pumps on the circuit' : 'I_1',
    source: 'current balance',
    from: { current: drawn },
    compute: ({ current }) => current,
  });
  return {
    load,
    word,
    path,
    about,
    amps,
    wire: field(`${path}.wire`, 'A'),
    unit: writtenIn(`${path}.wire`),
    length: field(`${path}.length`, 'l'),
    connectors: field(`${path}.connectors`, 'U_c', {
      value: circuitAllowance.value,
      because: circuitAllowance.source,
    }),
    temperature: field(`${path}.wire-temperature`, 'T_w', { value: 333.15, because: 'common practice' }),
    ground: choice<Ground>(`${path}.ground`, 'ground', { value: 'wire-to-battery', because: 'the worse case' }),
  };
}

type Circuit<L extends Load> = ReturnType<typeof described<L>>;

/** What the wire loses. */
function wireLoss<const L extends Load>(circuit: Circuit<L>) {
  const { load, word, about, amps, wire, unit, length, temperature, ground } = circuit;
  const resistance = figure({
    ...about,
    id: `${load}-wire-resistance`,
    symbol: 'R',
    name: `resistance of the ${word}'s wire per meter`,
    dimension: 'resistance-per-length',
    formula: ({ unit }) =>
      unit === 'mm^2'
        ? 'ISO 6722-1 table at 20 degC * (1 + 0.00393 (T_w - 20 degC))'
        : '1.02 / (58e6 A_cu) * (1 + 0.00393 (T_w - 20 degC)), A_cu the least copper of the gauge',
    source: ({ unit }) =>
      unit === 'mm^2'
        ? 'ISO 6722-1 (2011), from memory; IEC 60028'
        : 'least copper of SAE J1128, read in secondary copies; IEC 60028; 2 % for stranding',
    from: { wire, temperature, unit },
    compute: ({ wire, temperature, unit }) => flexibleWireResistance(wire, kindOf(unit), temperature),
  });
  const wireDrop = figure({
    ...about,
    id: `${load}-wire-drop`,
    symbol: 'dU_w',
    name: `voltage lost in the ${word}'s wire`,
    dimension: 'voltage',
    formula: ({ ground }) => (ground === 'chassis' ? 'I R l' : 'I R 2 l'),
    source: "Ohm's law",
    from: { amps, resistance, length, ground },
    compute: ({ amps, resistance, length, ground }) =>
      voltageDrop(
        { resistancePerMeter: resistance, length, returnLength: wayBack(ground, length), connectors: 0 },
        amps,
      ),
  });
  const dropShare = figure({
    ...about,
    id: `${load}-wire-drop-share`,
    symbol: 's_U',
    name: `share of the voltage lost in the ${word}'s wire`,
    dimension: 'ratio',
    formula: 'dU_w / U_0',
    source: 'definition; connectors, relay and fuse are not counted in it',
    from: { wireDrop, chargingVoltage },
    compute: ({ wireDrop, chargingVoltage }) => wireDrop / chargingVoltage,
  });
  return { resistance, wireDrop, dropShare };
}

/** What the way loses in all, and what arrives at the load. */
function arrival<const L extends Load>(circuit: Circuit<L>, wireDrop: Node<number>) {
  const { load, word, path, about, connectors, ground } = circuit;
  const part: FieldPath = load === 'pump' ? 'fuel-system.pump' : 'fuel-system.lift-pump';
  const drop = figure({
    ...about,
    id: `${load}-circuit-drop`,
    symbol: 'dU',
    name: `voltage lost on the way to the ${word}`,
    dimension: 'voltage',
    formula: ({ ground }) => (ground === 'chassis' ? `dU_w + U_c + ${chassisAllowance.value} V` : 'dU_w + U_c'),
    source: ({ ground }) =>
      ground === 'chassis' ? `Ohm's law; way back: ${chassisAllowance.source}` : "Ohm's law; voltage balance",
    from: { wireDrop, connectors, ground },
    compute: ({ wireDrop, connectors, ground }) =>
      wireDrop + connectors + (ground === 'chassis' ? chassisAllowance.value : 0),
  });
  const knownDrop = optional(drop);
  const voltage = figure({
    ...about,
    home: load === 'pump' ? [...about.home, part, 'measured.pump-voltage'] : [...about.home, part],
    id: `${load}-voltage`,
    symbol: 'U_p',
    name: `voltage that arrives at the ${word}`,
    dimension: 'voltage',
    formula: ({ knownDrop }) => (knownDrop === undefined ? 'U_0 - 1 V' : 'U_0 - dU'),
    source: ({ knownDrop }) =>
      knownDrop === undefined
        ? 'common practice, no source: 1 V is allowed for a circuit that the sheet does not describe'
        : "Ohm's law",
    notes: ({ knownDrop }) =>
      knownDrop === undefined ? [`describe \`${path}\` and the current of the ${word} for the real figure`] : [],
    from: { chargingVoltage, knownDrop },
    compute: ({ chargingVoltage, knownDrop }) => Math.max(0, chargingVoltage - (knownDrop ?? UNDESCRIBED_LOSS)),
  });
  return { drop, voltage };
}

/** The fuses and the wire that fit it. */
function protection<const L extends Load>(circuit: Circuit<L>) {
  const { load, word, about, amps, wire, unit, length, temperature, ground } = circuit;
  const fuseNeeded = figure({
    ...about,
    id: `${load}-fuse-needed`,
    symbol: 'F_min',
    name: `smallest fuse for the ${word}'s circuit`,
    dimension: 'current',
    formula: 'I / share, rounded up to a blade size',
    source: 'blade sizes ISO 8820-3 (sizes from memory); share common practice',
    from: { amps, share: limit('fuse-share') },
    compute: ({ amps, share }) => {
      const fuse = fuseRating(amps, share);
      if (fuse !== undefined) return fuse;
      throw new RangeError('No blade fuse is large enough; split the load over several circuits.');
    },
  });
  const fuseLimit = figure({
    ...about,
    id: `${load}-fuse-limit`,
    symbol: 'F_max',
    name: `largest fuse that protects the ${word}'s wire`,
    dimension: 'current',
    formula: '0.8 * current the wire carries, rounded down to a blade size',
    source: 'vehicle-wire practice: ABYC E-11, engine spaces, 105 degC, read in secondary copies, partly from memory',
    from: { wire, unit },
    compute: ({ wire, unit }) => fuseLimitOf(wire, kindOf(unit)),
  });
  const wireNeeded = figure({
    ...about,
    id: `${load}-wire-needed`,
    symbol: 'A_min',
    name: `thinnest stocked wire that keeps the ${word}'s drop within the limit`,
    dimension: 'wire-size',
    formula: 'the thinnest with R(T_w) at most limit U_0 / (I l_total)',
    source: ({ unit }) =>
      `Ohm's law; ${unit === 'mm^2' ? 'ISO 6722-1 (2011), from memory' : 'least copper of SAE J1128'}; limit common practice`,
    from: { amps, chargingVoltage, allowed: limit('voltage-drop'), length, temperature, ground, unit },
    compute: ({ amps, chargingVoltage, allowed, length, temperature, ground, unit }) => {
      const drop = allowed * chargingVoltage;
      const most = largestResistance({ current: amps, drop, length, returnLength: wayBack(ground, length) });
      const size = thinnestWire(most, kindOf(unit), temperature);
      if (size !== undefined) return size;
      throw new RangeError('No stocked wire is thick enough; shorten the way or split the load.');
    },
  });
  return { fuseNeeded, fuseLimit, wireNeeded };
}

/** The figures of one circuit; `word` is what its load is called, `current` what it draws. */
function circuitOf<const L extends Load>(load: L, word: string, current: Node<number>, when?: Node<boolean>) {
  const circuit = described(load, word, current, when);
  const loss = wireLoss(circuit);
  return { amps: circuit.amps, ...loss, ...arrival(circuit, loss.wireDrop), ...protection(circuit) };
}

export const pumpCircuit = circuitOf('pump', 'pump', pumpCircuitLoad);
export const liftPumpCircuit = circuitOf('lift-pump', 'lift pump', liftPumpLoad, hasLiftPump);
export const fanCircuit = circuitOf('fan', 'fan', statedFanLoad, hasFan);
