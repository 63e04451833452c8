import { notNegative, positive } from './bounds.ts';
import { finalCurrent } from './ignition.ts';

/** Voltage, V, lost in the driver and the feed of a coil while it charges. */
export const coilFeedLoss = {
  value: 1.25,
  low: 1,
  high: 1.5,
  source: 'common practice: 0.8 to 1.2 V in the switching transistor, the rest in wire and key switch',
} as const;

/** Energy, J, an inductive coil should store for a sure spark at full load. */
export const usefulEnergy = { value: 0.03, source: 'common practice, from memory: 30 to 60 mJ' } as const;

/** Heat, W, a coil bears for minutes with the key on and the engine still. */
export const lastingHeat = {
  value: 70,
  source: 'common practice: a 3 ohm contact-point coil has been left on at 14 V, 65 W, and lived',
} as const;

/** Voltage, V, that charges a coil: the supply less what driver and feed lose, never below 0. @throws RangeError for a negative voltage */
export function coilSupply(supply: number, loss: number = coilFeedLoss.value): number {
  return Math.max(0, notNegative(supply, 'The supply voltage') - notNegative(loss, 'The loss of driver and feed'));
}

/**
 * Sparks of one coil in a four-stroke cycle: cylinders over coils. One coil with a distributor fires for all, a coil for
 * two cylinders twice (once a revolution), a coil of its own once. Kinematics.
 * @throws RangeError unless both are whole, above zero, and the coils share the cylinders evenly
 */
export function sparksPerCoil(cylinders: number, coils: number): number {
  positive(cylinders, 'The number of cylinders');
  const sparks = cylinders / positive(coils, 'The number of coils');
  if (Number.isInteger(cylinders) && Number.isInteger(coils) && Number.isInteger(sparks)) return sparks;
  throw new RangeError(`${cylinders} cylinders do not share ${coils} coils evenly.`);
}

/** Heat, W, in a coil's winding and in its ballast. */
export type CoilHeat = { readonly coil: number; readonly ballast: number };

/**
 * Heat, W, with the key on and the engine still, where nothing limits the current: I^2 R and I^2 Rb at V / (R + Rb). Over
 * `lastingHeat` in the coil, a stalled engine burns the coil or its driver. Ohm's and Joule's laws.
 * @throws RangeError for a negative voltage or ballast, or a resistance not above zero
 */
export function steadyHeat(voltage: number, resistance: number, ballast = 0): CoilHeat {
  const current = finalCurrent(voltage, resistance, ballast);
  return { coil: current ** 2 * resistance, ballast: current ** 2 * ballast };
}
