import { notNegative, positive } from './bounds.ts';
import { INCH } from './constants.ts';

/**
 * Air speed, m/s, over the outside of a pleated element: 6 cfm per square inch. Common practice, from memory; the trade's
 * in^2 = cid * rpm / 20839 is the same at full filling.
 */
export const ELEMENT_SPEED = (6 * 0.3048 ** 3) / 60 / INCH ** 2;

/** Rubber at top and bottom of an element, m, that passes no air: 3/4 in together. Common practice, from memory. */
export const ELEMENT_ENDS = 0.75 * INCH;

/** Outside area, m2, of a round element that air passes: pi d (h - ends). @throws RangeError for a diameter not above zero */
export function elementArea(diameter: number, height: number): number {
  return Math.PI * positive(diameter, 'The diameter') * Math.max(0, notNegative(height, 'The height') - ELEMENT_ENDS);
}

/** Outside area, m2, an element needs for a volume flow, m3/s, at `ELEMENT_SPEED`. */
export function elementAreaNeeded(flow: number): number {
  return positive(flow, 'The air flow') / ELEMENT_SPEED;
}
