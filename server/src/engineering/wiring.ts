import { notNegative, positive } from './bounds.ts';

/** Voltage lost in the connectors, relay and fuse of a pump circuit, V, where nothing better is known. */
export const circuitAllowance = { value: 0.3, source: 'common practice: connectors, relay and fuse' } as const;

/** Voltage lost on the way back through the chassis, V, on top of `circuitAllowance`. */
export const chassisAllowance = { value: 0.1, source: 'common practice: seams, bolts and the ground strap' } as const;

/** Current, A, of a starter while it turns a warm engine, where nothing better is known. */
export const crankingCurrent = {
  value: 200,
  source: 'common practice, from memory: 150 to 250 A for a passenger-car V8',
} as const;

/** A two-wire circuit: resistance per meter at its temperature, one-way length of supply and return, m, and what the connectors take, V. */
export type Circuit = {
  readonly resistancePerMeter: number;
  readonly length: number;
  /** Length of the way back, m; 0 when the body is the return and its drop is in the connector allowance. */
  readonly returnLength: number;
  readonly connectors: number;
};

/**
 * Voltage, V, lost in a circuit at a current, A: I r (there + back) + connectors. Source: Ohm's law. @throws RangeError
 */
export function voltageDrop(circuit: Circuit, current: number): number {
  const way = notNegative(circuit.length, 'The wire length') + notNegative(circuit.returnLength, 'The return length');
  const resistance = positive(circuit.resistancePerMeter, "The wire's resistance") * way;
  return notNegative(current, 'The current') * resistance + notNegative(circuit.connectors, 'The connector allowance');
}

/**
 * Largest resistance per meter, ohm/m, of a wire that loses at most `drop`, V, at a current, A, over its way there and
 * back, m; what connectors take is not in it. `thinnestWire` gives the wire. Source: Ohm's law. @throws RangeError
 */
export function largestResistance(need: {
  current: number;
  drop: number;
  length: number;
  returnLength: number;
}): number {
  const way = positive(need.length, 'The wire length') + notNegative(need.returnLength, 'The return length');
  return positive(need.drop, 'The drop allowed') / (positive(need.current, 'The current') * way);
}

/** Battery voltage, V, at its posts while the starter turns, where nothing better is known. */
export const crankingVoltage = {
  value: 10,
  low: 9,
  source:
    'common practice: a charged battery holds 9 to 10 V; a load test fails it below 9.6 V at 20 degC (from memory)',
} as const;

/**
 * Voltages, V, while the starter turns: at the starter, and at a computer fed from the battery's posts whose ground is the
 * battery or the engine. Resistances, ohm, of the positive cable and of the whole way back from the engine: strap, body
 * and negative cable. A computer grounded on the engine loses what the starter's current loses on that way. Never below 0.
 * Source: Ohm's law; the computer's own current is left out. @throws RangeError for a quantity below zero
 */
export function crankingVoltages(cranking: { battery: number; current: number; cable: number; groundPath: number }): {
  starter: number;
  groundedAtBattery: number;
  groundedAtEngine: number;
} {
  const battery = positive(cranking.battery, 'The battery voltage');
  const current = notNegative(cranking.current, 'The cranking current');
  const cable = current * notNegative(cranking.cable, 'The resistance of the battery cable');
  const ground = current * notNegative(cranking.groundPath, 'The resistance of the ground path');
  return {
    starter: Math.max(0, battery - cable - ground),
    groundedAtBattery: battery,
    groundedAtEngine: Math.max(0, battery - ground),
  };
}

/** Loads of a charging system, A, against what it gives. */
export type ChargingBalance = { readonly load: number; readonly reserve: number; readonly loading: number };

/**
 * Sum of the loads, A, what is left of the alternator's output, A (negative when the battery is drained), and the share
 * of the output in use. Source: current balance. @throws RangeError for a negative load or an output not above zero
 */
export function chargingBalance(output: number, loads: readonly number[]): ChargingBalance {
  positive(output, "The alternator's output");
  let load = 0;
  for (const one of loads) load += notNegative(one, 'The load');
  return { load, reserve: output - load, loading: load / output };
}
