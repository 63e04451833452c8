import type { Quantity } from '../units/quantity.ts';
import { preferredSizes, type Size } from './size.ts';

/** Room over what is required, reserve included, when another pump is chosen. Common practice. */
const LEAST_ROOM = 1.1;
const MOST_ROOM = 1.3;

/** A preferred size of pump with room over the delivery required, m3/s, in the unit of the sheet's own. */
export function nextPump(required: number, like: Quantity): Size | undefined {
  return preferredSizes(required * LEAST_ROOM, required * MOST_ROOM, like)[0];
}
