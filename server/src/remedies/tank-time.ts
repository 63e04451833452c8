import type { Estimate } from '../analysis/figure.ts';
import type { Quantity } from '../units/quantity.ts';

/** Time at full power, s, under which a tank only suits a drag strip. Common practice, from memory. */
export const SHORTEST_STINT = 5 * 60;

/** Time, s, that a tank of a capacity lasts at a demand by volume. Mass balance. */
export function fullPowerTime(capacity: Quantity, demand: Estimate): number {
  return capacity.value / demand.value;
}
