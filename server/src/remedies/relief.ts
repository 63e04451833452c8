import type { Estimate } from '../analysis/figure.ts';
import type { Quantity } from '../units/quantity.ts';
import { coarselyUp } from './size.ts';

/** Opening of a relief valve over the highest working pressure, at least. Common practice. */
export const LEAST_RELIEF = 1.1;

/** Opening of the relief valve of a pump that is chosen, over the working pressure. Common practice, from memory. */
export const USUAL_RELIEF = 1.25;

/** The higher of the pressures a pump works at. */
export function workingPressure(figures: readonly (Estimate | undefined)[]): Estimate | undefined {
  const known = figures.filter((figure) => figure !== undefined);
  return known.toSorted((one, other) => other.value - one.value)[0];
}

/** An opening with usual room over a working pressure, Pa, as text in the unit of the sheet's own. */
export function reliefFor(pressure: number, like: Quantity): string {
  return coarselyUp(pressure * USUAL_RELIEF, like);
}
