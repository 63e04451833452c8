/** Idle speeds are given in steps of 50 rpm (rev/s). */
const STEP = 50 / 60;

/**
 * Lowest warm idle (rev/s) a cam idles steadily at: 650 rpm at 210 degrees of duration at 0.050 in, 7.5 rpm more for
 * each degree above, 600 rpm at least. Common practice, from memory: 800 rpm at 230, 950 at 250 degrees.
 */
export function lowestIdle(duration: number): number {
  return Math.max(600, 650 + 7.5 * (duration - 210)) / 60;
}

/**
 * Highest warm idle (rev/s) that is one: 1,500 rpm, and 10 rpm more for each degree of duration at 0.050 in over 250.
 * Common practice, from memory: long racing cams idle at 1,000 to 1,400 rpm.
 */
export function highestIdle(duration: number | undefined): number {
  return (1500 + 10 * Math.max(0, (duration ?? 0) - 250)) / 60;
}

/** A steady idle (rev/s) for a cam, a little over its lowest; 800 rpm where the cam is not known. Common practice. */
export function usualIdle(duration: number | undefined): number {
  const low = duration === undefined ? 750 / 60 : lowestIdle(duration);
  return Math.ceil((low + STEP) / STEP - 1e-9) * STEP;
}
