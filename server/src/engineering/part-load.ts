import { HEAT_RATIO } from './air.ts';
import type { Build } from './bmep.ts';
import { notNegative, positive, within } from './bounds.ts';

/**
 * Volumetric efficiency, referred to the manifold's air, at part load from that at full load: full * (r / (r - 1) - (p_e /
 * p + g - 1) / (g (r - 1))), r compression ratio, p manifold and p_e exhaust pressure (absolute, Pa), g = 1.4. Burned gas
 * left over at exhaust pressure takes the more room the lower the manifold's. Source: Heywood, ideal cycle of section
 * 6.2, from memory. Never below 0. @throws RangeError for a quantity out of its range
 */
export function partLoadEfficiency(of: {
  full: number;
  manifoldPressure: number;
  exhaustPressure: number;
  compressionRatio: number;
}): number {
  const ratio = within(of.compressionRatio, 2, 30, 'The compression ratio');
  const pressures =
    positive(of.exhaustPressure, 'The exhaust pressure') / positive(of.manifoldPressure, 'The manifold pressure');
  const share = ratio / (ratio - 1) - (pressures + HEAT_RATIO - 1) / (HEAT_RATIO * (ratio - 1));
  return positive(of.full, 'The volumetric efficiency at full load') * Math.max(0, share);
}

/**
 * Volumetric efficiency at full load at a speed from that at peak power: in proportion to torque (N m). An estimate that
 * takes mixture and friction as the same; see `torqueAt`. @throws RangeError unless all are above zero
 */
export function fullLoadEfficiency(atPeakPower: number, torque: number, torqueAtPeakPower: number): number {
  const share = positive(torque, 'The torque') / positive(torqueAtPeakPower, 'The torque at peak power');
  return positive(atPeakPower, 'The volumetric efficiency at peak power') * share;
}

/** Share of full load: manifold pressure above that of idle over ambient above idle, 0 to 1; pressures absolute, Pa. @throws RangeError */
export function loadShare(manifoldPressure: number, idlePressure: number, ambient: number): number {
  const pressure = positive(manifoldPressure, 'The manifold pressure');
  const idle = positive(idlePressure, 'The idle manifold pressure');
  const span = positive(positive(ambient, 'The ambient pressure') - idle, 'The range from idle to full load');
  return Math.min(1, Math.max(0, (pressure - idle) / span));
}

/**
 * A part-load efficiency drawn through the idle that is known: times the known over the computed efficiency at idle, fading
 * in a line to 1 at full load. A fit, no physics: valve overlap makes idle worse than the ideal cycle.
 * @throws RangeError unless the efficiencies are above zero and the load from 0 to 1
 */
export function throughIdle(efficiency: number, load: number, idle: { known: number; computed: number }): number {
  within(load, 0, 1, 'The load');
  const factor =
    positive(idle.known, 'The volumetric efficiency at idle') /
    positive(idle.computed, 'The computed volumetric efficiency at idle');
  return notNegative(efficiency, 'The volumetric efficiency') * (1 + (factor - 1) * (1 - load));
}

/** Lambda to start idling with, by build: overlap wants it rich. Common practice. */
export const idleLambda: Readonly<Record<Build, number>> = { mild: 0.97, 'long-cam': 0.92, racing: 0.88 };

/** Advance to start idling with, crank degrees, by build. Common practice. */
export const idleAdvance: Readonly<Record<Build, number>> = { mild: 14, 'long-cam': 18, racing: 22 };

/** Manifold pressure over ambient up to which cruising mixture holds. Common practice. */
const CRUISE_LOAD = 0.7;

/** Manifold pressure over ambient from which full-load mixture holds. Common practice. */
const FULL_LOAD = 0.95;

/**
 * Lambda to start tuning from at a manifold pressure (absolute, Pa): 1 while cruising, that of full load from nearly
 * ambient pressure on and under boost, in a line between. Common practice. @throws RangeError unless all are above zero
 */
export function startingLambda(manifoldPressure: number, ambient: number, fullLoad: number): number {
  const load = positive(manifoldPressure, 'The manifold pressure') / positive(ambient, 'The ambient pressure');
  const share = Math.min(1, Math.max(0, (load - CRUISE_LOAD) / (FULL_LOAD - CRUISE_LOAD)));
  return 1 + share * (positive(fullLoad, 'Lambda at full load') - 1);
}
