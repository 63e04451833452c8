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
