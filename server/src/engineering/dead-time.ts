import { notNegative, positive } from './bounds.ts';
import { linearAt } from './interpolation.ts';

/** Dead time of one injector measured at several battery voltages: V in rising order, s. */
export type DeadTimeTable = readonly { voltage: number; deadTime: number }[];

/**
 * Dead time (s) at a battery voltage (V) from a table: linear between the points; outside them it is that of the
 * nearest point, and `outside` says so. Throws `RangeError` for an empty or unordered table.
 */
export function deadTimeFromTable(voltage: number, table: DeadTimeTable): { deadTime: number; outside: boolean } {
  positive(voltage, 'The battery voltage');
  const lowest = table[0];
  const highest = table.at(-1);
  if (!lowest || !highest) throw new RangeError('The dead-time table is empty.');
  const voltages = table.map((point) => positive(point.voltage, 'A voltage of the dead-time table'));
  const deadTimes = table.map((point) => notNegative(point.deadTime, 'A dead time of the table'));
  const nearest = Math.min(Math.max(voltage, lowest.voltage), highest.voltage);
  return { deadTime: linearAt(voltages, deadTimes, nearest), outside: nearest !== voltage };
}

/** Battery voltage (V) at which a single stated dead time is taken to hold. Common practice. */
export const DEAD_TIME_VOLTAGE = 14;

/**
 * Dead time (s) at a battery voltage (V) when it is known at one voltage only: it rises with the inverse square of the
 * voltage. Common practice, an estimate from memory of measured tables (12 V: about a third more than at 14 V).
 */
export function deadTimeEstimate(voltage: number, known: { voltage: number; deadTime: number }): number {
  const ratio = positive(known.voltage, 'The voltage of the dead time') / positive(voltage, 'The battery voltage');
  return notNegative(known.deadTime, 'The dead time') * ratio ** 2;
}

/** Volts under the lowest measured that a dead time is still worked out for, and the lowest an estimate is trusted at. */
export const deadTimeReach = {
  below: 1,
  lowest: 8,
  source: 'common practice: near its pull-in voltage an injector opens late or not at all',
} as const;

/**
 * Dead time, s, and how far it can be trusted: `measured` between the points of a table, or at the one known; `estimated`
 * by the inverse square of the voltage from the nearest; `unknown` more than 1 V below the lowest of several points, or
 * under 8 V: the value is then that of the last voltage it was worked out for, and no finding should rest on it.
 */
export type DeadTimeReading = { readonly deadTime: number; readonly trust: 'measured' | 'estimated' | 'unknown' };

/**
 * Dead time (s) at a battery voltage (V) from points measured at one or several voltages, in rising order. Source: see
 * `deadTimeFromTable`, `deadTimeEstimate`, `deadTimeReach`. @throws RangeError for an empty or unordered table
 */
export function readDeadTime(voltage: number, table: DeadTimeTable): DeadTimeReading {
  const { deadTime, outside } = deadTimeFromTable(voltage, table);
  if (!outside) return { deadTime, trust: 'measured' };
  const lowest = table[0] as DeadTimeTable[number];
  const highest = table.at(-1) as DeadTimeTable[number];
  if (voltage > highest.voltage) return { deadTime: deadTimeEstimate(voltage, highest), trust: 'estimated' };
  const reach = Math.max(deadTimeReach.lowest, table.length > 1 ? lowest.voltage - deadTimeReach.below : 0);
  const least = Math.min(lowest.voltage, reach);
  return {
    deadTime: deadTimeEstimate(Math.max(voltage, least), lowest),
    trust: voltage < least ? 'unknown' : 'estimated',
  };
}

/** Dead times (s) of injectors at 14 V, from quick to slow ones. Common practice, from memory: 0.4 to 1.5 ms, wide on purpose. */
const PLAUSIBLE = { low: 0.25e-3, high: 2e-3 } as const;

/**
 * Dead times (s) that injectors have at a battery voltage (V): outside it is a slip. `PLAUSIBLE` with `deadTimeEstimate`.
 * @throws RangeError unless the voltage is above zero
 */
export function plausibleDeadTime(voltage: number): { low: number; high: number } {
  const at = (deadTime: number) => deadTimeEstimate(voltage, { voltage: DEAD_TIME_VOLTAGE, deadTime });
  return { low: at(PLAUSIBLE.low), high: at(PLAUSIBLE.high) };
}
