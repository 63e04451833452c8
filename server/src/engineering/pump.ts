import { notNegative, positive, said, within } from './bounds.ts';
import { type Curve, curveAt, pchip } from './interpolation.ts';

/** A point of a pump's test: gauge pressure in Pa, volume flow in m3/s, and the current in A where it was measured. */
export type PumpPoint = { readonly pressure: number; readonly flow: number; readonly current?: number | undefined };

/** A pump's test at one voltage, V: its points in rising order of pressure. */
export type PumpTest = { readonly voltage: number; readonly points: readonly PumpPoint[] };

/** A pump ready to be read, made by `pumpFromTests`. */
export type Pump = { readonly curves: readonly PumpCurve[] };

type PumpCurve = {
  readonly voltage: number;
  readonly first: PumpPoint;
  readonly last: PumpPoint;
  readonly flow: Curve | undefined;
  readonly current: Curve | undefined;
  readonly zeroFlowPressure: number;
};

/**
 * A volume flow in m3/s. `extrapolated`: the pressure is outside the points given. `estimated`: the voltage is not one
 * between given curves, so the flow was scaled with it.
 */
export type PumpFlow = { readonly flow: number; readonly extrapolated: boolean; readonly estimated: boolean };

/** A current in A; the flags mean the same as in `PumpFlow`. */
export type PumpCurrent = { readonly current: number; readonly extrapolated: boolean; readonly estimated: boolean };

/** A main pump runs always, a staged one when it is called for, a spare never together with the one it stands by for. */
export type PumpRole = 'main' | 'staged' | 'spare';

/** Equal pumps side by side with the voltage at their terminals, V. */
export type PumpUnit = {
  readonly pump: Pump;
  readonly voltage: number;
  readonly role: PumpRole;
  readonly quantity: number;
};

/** Hydraulic power over electrical power of a small electric fuel pump, used only where no current is known. */
export const pumpEfficiency = { value: 0.2, source: 'common practice, from memory: 15 to 30 %' } as const;

/** Least share of a pump curve's voltage at which the curve still tells something about the pump. */
export const trustedVoltageShare = {
  value: 0.85,
  source: 'common practice: below it a scaled curve is a guess, and a motor may not start against pressure',
} as const;

/** Beyond its last point a curve is taken to reach zero flow at this multiple of that point's pressure at the latest. */
const farthestZeroFlow = 1.5;

/**
 * A pump from its tests. Between points the flow follows a shape-preserving cubic (see `pchip`).
 * @throws RangeError for a test without points, without one under pressure or with points out of order, a flow that rises with pressure or is zero
 * throughout, a current on some points only, two tests at one voltage, or a quantity that is negative or no number
 */
export function pumpFromTests(tests: readonly PumpTest[]): Pump {
  if (tests.length === 0) throw new RangeError('A pump needs a curve, but there is none.');
  const curves = tests.map(curveOf).sort((a, b) => a.voltage - b.voltage);
  for (let i = 1; i < curves.length; i++) {
    if (curves[i]?.voltage === curves[i - 1]?.voltage) {
      throw new RangeError(`The pump has two curves at ${curves[i]?.voltage} V.`);
    }
  }
  return { curves };
}

/**
 * Flow, m3/s, of a pump at a pressure rise in Pa and a voltage in V.
 *
 * Voltage: between two curves the flow is interpolated at the same pressure; otherwise the nearest curve's flow scales
 * with the voltage, which is common practice and marked as an estimate (a weak supply also lowers the pressure a pump
 * can reach, so at high pressure the estimate is on the optimistic side).
 * Pressure: under the first point the flow is held; over the last one it falls in a straight line, at the steepest
 * slope of the curve or steeper. Both are on the safe side and marked as extrapolated.
 * @throws RangeError for a pressure or voltage that is negative or no number
 */
export function pumpFlow(pump: Pump, pressure: number, voltage: number): PumpFlow {
  notNegative(pressure, 'The pressure at the pump');
  notNegative(voltage, 'The voltage at the pump');
  const { low, high, share } = neighbours(pump, voltage);
  const lowFlow = flowOnCurve(low, pressure);
  if (low === high) {
    return {
      flow: lowFlow * (voltage / low.voltage),
      extrapolated: isBeyond(low, pressure),
      estimated: voltage !== low.voltage,
    };
  }
  return {
    flow: lowFlow + share * (flowOnCurve(high, pressure) - lowFlow),
    extrapolated: isBeyond(low, pressure) || isBeyond(high, pressure),
    estimated: false,
  };
}

/**
 * `voltage`, V, when a pump's curves say something about it: from 85 % of the lowest curve's voltage up. A curve given at
 * or below that voltage settles it. Source: common practice, see `trustedVoltageShare`.
 * @throws RangeError below that, or for a voltage that is negative or no number
 */
export function trustedVoltage(pump: Pump, voltage: number): number {
  return trustedAgainst((pump.curves[0] as PumpCurve).voltage, voltage);
}

/**
 * Flow, m3/s, of a pump at a voltage in V from its flow at a rated voltage, in proportion: an estimate. Source: common
 * practice. @throws RangeError where `trustedVoltage` would, or for a quantity that is negative or no number
 */
export function flowAtVoltage(flow: number, rated: number, voltage: number): number {
  const trusted = trustedAgainst(positive(rated, 'The rated voltage'), voltage);
  return (notNegative(flow, 'The flow') * trusted) / rated;
}

function trustedAgainst(lowest: number, voltage: number): number {
  if (notNegative(voltage, 'The voltage at the pump') >= trustedVoltageShare.value * lowest * (1 - 1e-9))
    return voltage;
  throw new RangeError(
    `At ${voltage.toFixed(1)} V the pump has ${Math.floor((100 * voltage) / lowest)} % of the ${lowest} V its curve was taken at: below ${100 * trustedVoltageShare.value} % nobody knows what it delivers.`,
  );
}

/**
 * Pressure, Pa, at which a pump's curve at less voltage lies above the one at more, by over 1 % of the flow: one of them is
 * wrong. The lowest such pressure among the points both curves cover; undefined when there is none.
 */
export function crossingOf(pump: Pump): number | undefined {
  const found: number[] = [];
  for (let i = 1; i < pump.curves.length; i++) {
    const [low, high] = [pump.curves[i - 1] as PumpCurve, pump.curves[i] as PumpCurve];
    const from = Math.max(low.first.pressure, high.first.pressure);
    const to = Math.min(low.last.pressure, high.last.pressure);
    const pressures = [from, to, ...(low.flow?.x ?? []), ...(high.flow?.x ?? [])];
    for (const pressure of pressures) {
      if (pressure < from || pressure > to) continue;
      if (flowOnCurve(low, pressure) > 1.01 * flowOnCurve(high, pressure)) found.push(pressure);
    }
  }
  return found.length > 0 ? Math.min(...found) : undefined;
}

/** Pressure rise, Pa, from which on a pump gives no flow at a voltage in V. @throws RangeError for a negative voltage */
export function zeroFlowPressure(pump: Pump, voltage: number): number {
  notNegative(voltage, 'The voltage at the pump');
  const { low, high } = neighbours(pump, voltage);
  return Math.max(low.zeroFlowPressure, high.zeroFlowPressure);
}

/**
 * Flow of all pumps that run, m3/s: main pumps always, staged ones when `stagedRun`, spares never. Pumps side by side
 * see the same pressure rise, Pa, and their flows add; a check valve in each is taken for granted.
 * @throws RangeError as `pumpFlow`, or for a quantity that is not a whole number
 */
export function pumpsFlow(units: readonly PumpUnit[], pressure: number, stagedRun: boolean): PumpFlow {
  let flow = 0;
  let extrapolated = false;
  let estimated = false;
  for (const unit of units) {
    if (!runs(unit, stagedRun)) continue;
    const one = pumpFlow(unit.pump, pressure, unit.voltage);
    flow += one.flow * wholeNumber(unit.quantity);
    extrapolated ||= one.extrapolated;
    estimated ||= one.estimated;
  }
  return { flow, extrapolated, estimated };
}

/** Pressure rise, Pa, from which on none of the running pumps gives flow; 0 when none runs. @throws RangeError */
export function zeroFlowPressureOf(units: readonly PumpUnit[], stagedRun: boolean): number {
  let highest = 0;
  for (const unit of units) {
    if (runs(unit, stagedRun)) highest = Math.max(highest, zeroFlowPressure(unit.pump, unit.voltage));
  }
  return highest;
}

/**
 * Current, A, of a pump at a pressure rise in Pa and a voltage in V, or undefined when its points carry none. It is held
 * outside the points. Away from the given curves it is taken not to depend on the voltage, as the torque of a
 * permanent-magnet motor at one pressure does not; that is marked as an estimate.
 * @throws RangeError for a pressure or voltage that is negative or no number
 */
export function pumpCurrent(pump: Pump, pressure: number, voltage: number): PumpCurrent | undefined {
  notNegative(pressure, 'The pressure at the pump');
  notNegative(voltage, 'The voltage at the pump');
  const { low, high, share } = neighbours(pump, voltage);
  const lowCurrent = currentOnCurve(low, pressure);
  const highCurrent = currentOnCurve(high, pressure);
  if (lowCurrent === undefined || highCurrent === undefined) return undefined;
  return {
    current: lowCurrent + share * (highCurrent - lowCurrent),
    extrapolated: isBeyond(low, pressure) || isBeyond(high, pressure),
    estimated: low === high && voltage !== low.voltage,
  };
}

/**
 * Current, A, from pressure rise in Pa, flow in m3/s and voltage in V: I = p q / (efficiency V). An estimate for pumps
 * whose current is not known. Source: energy balance; the efficiency is common practice, see `pumpEfficiency`.
 * @throws RangeError unless pressure and flow are zero or above, the voltage above zero, the efficiency above 0 up to 1
 */
export function currentFromPower(
  pressure: number,
  flow: number,
  voltage: number,
  efficiency: number = pumpEfficiency.value,
): number {
  within(positive(efficiency, "The pump's efficiency"), 0, 1, "The pump's efficiency");
  const power = notNegative(pressure, 'The pressure at the pump') * notNegative(flow, 'The flow');
  return power / (efficiency * positive(voltage, 'The voltage at the pump'));
}

function curveOf(test: PumpTest): PumpCurve {
  positive(test.voltage, "The voltage of the pump's curve");
  const points = test.points;
  const first = points[0];
  const last = points[points.length - 1];
  if (!first || !last) throw new RangeError(`The pump's curve at ${test.voltage} V has no points.`);
  for (let i = 0; i < points.length; i++) checkPoint(points, i);
  if (first.flow === 0) throw new RangeError(`The pump's curve at ${test.voltage} V has no flow at any pressure.`);
  if (last.pressure === 0) {
    throw new RangeError(
      `The pump's curve at ${test.voltage} V gives its flow without pressure only; its flow at a pressure is needed.`,
    );
  }
  const pressures = points.map((point) => point.pressure);
  const currents = points.map((point) => point.current).filter((current) => current !== undefined);
  if (currents.length !== 0 && currents.length !== points.length) {
    throw new RangeError(`The pump's curve at ${test.voltage} V gives a current for some points only.`);
  }
  const several = points.length > 1;
  const flow = several
    ? pchip(
        pressures,
        points.map((point) => point.flow),
      )
    : undefined;
  return {
    voltage: test.voltage,
    first,
    last,
    flow,
    current: several && currents.length > 0 ? pchip(pressures, currents) : undefined,
    zeroFlowPressure: extrapolatedZero(points, last, flow),
  };
}

function checkPoint(points: readonly PumpPoint[], i: number): void {
  const point = points[i] as PumpPoint;
  notNegative(point.pressure, `The pressure of point ${i + 1} of the pump's curve`);
  notNegative(point.flow, `The flow of point ${i + 1} of the pump's curve`);
  if (point.current !== undefined) notNegative(point.current, `The current of point ${i + 1} of the pump's curve`);
  const before = points[i - 1];
  if (!before) return;
  if (point.pressure <= before.pressure) {
    throw new RangeError(
      `The pump's points must be in rising order of pressure: ${said(point.pressure, 'pressure')} follows ${said(before.pressure, 'pressure')}.`,
    );
  }
  if (point.flow > before.flow) {
    throw new RangeError(
      `The pump's flow rises from ${said(before.flow, 'volume-flow')} to ${said(point.flow, 'volume-flow')} while the pressure rises to ${said(point.pressure, 'pressure')}; a pump delivers less at a higher pressure.`,
    );
  }
}

function extrapolatedZero(points: readonly PumpPoint[], last: PumpPoint, flow: Curve | undefined): number {
  if (last.flow === 0) return last.pressure;
  let steepest = last.flow / ((farthestZeroFlow - 1) * last.pressure);
  for (let i = 1; i < points.length; i++) {
    const from = points[i - 1] as PumpPoint;
    const to = points[i] as PumpPoint;
    steepest = Math.max(steepest, (from.flow - to.flow) / (to.pressure - from.pressure));
  }
  if (flow) steepest = Math.max(steepest, -(flow.slope[flow.slope.length - 1] as number));
  return last.pressure + last.flow / steepest;
}

function flowOnCurve(curve: PumpCurve, pressure: number): number {
  if (pressure <= curve.first.pressure) return curve.first.flow;
  if (pressure >= curve.zeroFlowPressure) return 0;
  if (pressure <= curve.last.pressure && curve.flow) return Math.max(0, curveAt(curve.flow, pressure));
  const left = (curve.zeroFlowPressure - pressure) / (curve.zeroFlowPressure - curve.last.pressure);
  return curve.last.flow * left;
}

function currentOnCurve(curve: PumpCurve, pressure: number): number | undefined {
  if (!curve.current) return curve.last.current;
  return curveAt(curve.current, Math.min(Math.max(pressure, curve.first.pressure), curve.last.pressure));
}

function isBeyond(curve: PumpCurve, pressure: number): boolean {
  return pressure < curve.first.pressure || (pressure > curve.last.pressure && curve.last.flow > 0);
}

function neighbours(pump: Pump, voltage: number): { low: PumpCurve; high: PumpCurve; share: number } {
  const curves = pump.curves;
  let i = 0;
  while (i < curves.length - 1 && (curves[i] as PumpCurve).voltage < voltage) i++;
  const high = curves[i] as PumpCurve;
  const low = curves[i - 1];
  if (!low || high.voltage <= voltage) return { low: high, high, share: 0 };
  return { low, high, share: (voltage - low.voltage) / (high.voltage - low.voltage) };
}

function runs(unit: PumpUnit, stagedRun: boolean): boolean {
  return unit.role === 'main' || (unit.role === 'staged' && stagedRun);
}

function wholeNumber(quantity: number): number {
  if (!Number.isInteger(quantity) || quantity < 1) {
    throw new RangeError(`The number of pumps must be a whole number from 1, but it is ${quantity}.`);
  }
  return quantity;
}
