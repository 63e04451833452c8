import { notNegative, positive } from './bounds.ts';

/** Time a spark burns, in which the coil cannot charge (s). Common practice, from memory (0.8 to 2 ms). */
export const SPARK_DURATION = 1e-3;

/** An ignition coil's primary: resistance in ohm, inductance in H. */
export type Primary = { resistance: number; inductance: number };

/** Final primary current (A) at a supply voltage (V) with an optional ballast resistance (ohm) in line: V / (R + Rb). Ohm's law. */
export function finalCurrent(voltage: number, resistance: number, ballast = 0): number {
  return (
    notNegative(voltage, 'The supply voltage') /
    (positive(resistance, 'The primary resistance') + notNegative(ballast, 'The ballast resistance'))
  );
}

/** Voltage (V) left across the coil once its current is steady behind a ballast resistance (ohm). Ohm's law. */
export function coilVoltage(voltage: number, resistance: number, ballast: number): number {
  return finalCurrent(voltage, resistance, ballast) * resistance;
}

/** Time constant (s) of a primary, L / R; a ballast resistance (ohm) in line counts. Series RL circuit. */
export function timeConstant(primary: Primary, ballast = 0): number {
  return (
    positive(primary.inductance, 'The primary inductance') /
    (positive(primary.resistance, 'The primary resistance') + notNegative(ballast, 'The ballast resistance'))
  );
}

/** Primary current (A) after charging for a time (s) at a voltage (V): V / R (1 - exp(-t R / L)). Series RL circuit. */
export function coilCurrent(voltage: number, primary: Primary, time: number, ballast = 0): number {
  const charge = -Math.expm1(-notNegative(time, 'The charging time') / timeConstant(primary, ballast));
  return finalCurrent(voltage, primary.resistance, ballast) * charge;
}

/**
 * Time (s) to reach a primary current (A) at a voltage (V): -L / R ln(1 - I R / V). Series RL circuit. Throws `RangeError`
 * when the voltage never drives that current.
 */
export function timeToCurrent(current: number, voltage: number, primary: Primary, ballast = 0): number {
  const final = finalCurrent(voltage, primary.resistance, ballast);
  if (notNegative(current, 'The primary current') >= final)
    throw new RangeError(
      `${voltage} V drives at most ${final.toPrecision(3)} A through the coil, so it never reaches ${current} A.`,
    );
  return -timeConstant(primary, ballast) * Math.log1p(-current / final);
}

/** Energy (J) stored at a primary current (A): L I^2 / 2, inductance in H. */
export function storedEnergy(inductance: number, current: number): number {
  return (positive(inductance, 'The primary inductance') * notNegative(current, 'The primary current') ** 2) / 2;
}

/**
 * Time between the sparks of one coil (s) in a four-stroke: 2 / (N * sparks per cycle); speed rev/s, sparks per cycle
 * equal to the number of cylinders with one coil and a distributor. Kinematics.
 */
export function sparkInterval(speed: number, sparksPerCycle: number): number {
  return 2 / (positive(speed, 'The engine speed') * positive(sparksPerCycle, 'The number of sparks per cycle'));
}

/** Time left to charge the coil between sparks (s): interval - spark duration (s), zero when none is left. Kinematics. */
export function dwellAvailable(speed: number, sparksPerCycle: number, sparkDuration = SPARK_DURATION): number {
  return Math.max(0, sparkInterval(speed, sparksPerCycle) - notNegative(sparkDuration, 'The spark duration'));
}

/** Highest speed (rev/s) that leaves a dwell (s) between sparks: 2 / (n (dwell + spark duration)). Kinematics. */
export function highestSpeedForDwell(dwell: number, sparksPerCycle: number, sparkDuration = SPARK_DURATION): number {
  const interval = positive(dwell, 'The dwell') + notNegative(sparkDuration, 'The spark duration');
  return 2 / (positive(sparksPerCycle, 'The number of sparks per cycle') * interval);
}

/** Charge of a coil at one engine speed: dwell available (s), primary current reached (A), energy stored (J). */
export type CoilCharge = { dwell: number; current: number; energy: number };

/**
 * Charge a coil reaches at an engine speed (rev/s), charging all the time between sparks from `voltage` (V), through a
 * ballast resistance (ohm) when there is one, and held at `currentLimit` (A) by the driver when that has one. Series RL
 * circuit; the current is taken to start from zero.
 */
export function coilChargeAt(
  speed: number,
  coil: {
    primary: Primary;
    voltage: number;
    sparksPerCycle: number;
    ballast?: number;
    sparkDuration?: number;
    currentLimit?: number;
  },
): CoilCharge {
  const dwell = dwellAvailable(speed, coil.sparksPerCycle, coil.sparkDuration);
  const free = coilCurrent(coil.voltage, coil.primary, dwell, coil.ballast);
  const current =
    coil.currentLimit === undefined ? free : Math.min(free, positive(coil.currentLimit, 'The current limit'));
  return { dwell, current, energy: storedEnergy(coil.primary.inductance, current) };
}
