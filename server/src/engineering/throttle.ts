import { type Air, SEA_LEVEL } from './air.ts';
import { notNegative, positive, within } from './bounds.ts';
import { CRITICAL_PRESSURE_RATIO, idealMassFlux } from './compressible.ts';
import { INCH_OF_MERCURY } from './constants.ts';
import { findRoot } from './roots.ts';

/** Depression at which the trade rates four-bore throttle bodies and carburetors: 1.5 inHg (Pa). Common practice. */
export const FOUR_BORE_TEST_DEPRESSION = 1.5 * INCH_OF_MERCURY;

/** Depression at which the trade rates one- and two-bore throttle bodies and carburetors: 3.0 inHg (Pa). Common practice. */
export const TWO_BORE_TEST_DEPRESSION = 3 * INCH_OF_MERCURY;

/** Discharge coefficient of an open bore with its shaft and plate. Common practice, 0.7 to 0.85; not from a source. */
export const DISCHARGE_COEFFICIENT = 0.75;

/** Open area (m2) of bores given as quantities of diameters (m). Throws `RangeError` for an empty list. */
export function boreArea(bores: readonly { quantity: number; diameter: number }[]): number {
  const area = bores.reduce(
    (sum, { quantity, diameter }) =>
      sum + positive(quantity, 'The number of bores') * (Math.PI / 4) * positive(diameter, 'The bore diameter') ** 2,
    0,
  );
  return positive(area, 'The bore area');
}

/**
 * Effective flow area (m2): open area times discharge coefficient (above 0, up to 1).
 * Heywood, Internal Combustion Engine Fundamentals, appendix C.
 */
export function effectiveArea(area: number, dischargeCoefficient = DISCHARGE_COEFFICIENT): number {
  within(positive(dischargeCoefficient, 'The discharge coefficient'), 0, 1, 'The discharge coefficient');
  return positive(area, 'The bore area') * dischargeCoefficient;
}

/**
 * Air mass flow (kg/s) through an effective area (m2) at a depression (Pa) below the air upstream, and whether it is
 * choked (a larger depression gives no more). Heywood eqs. C.8 and C.9; NACA Report 1135. Throws `RangeError` for a
 * depression above the upstream pressure.
 */
export function throttleFlow(area: number, depression: number, upstream: Air): { massFlow: number; choked: boolean } {
  positive(area, 'The effective area');
  within(depression, 0, upstream.pressure, 'The pressure drop', 'pressure');
  const downstream = upstream.pressure - depression;
  return {
    massFlow: area * idealMassFlux(upstream.pressure, upstream.temperature, downstream),
    choked: downstream <= CRITICAL_PRESSURE_RATIO * upstream.pressure,
  };
}

/** The most air (kg/s) an effective area (m2) passes at all: choked flow. Heywood eq. C.9. */
export function chokedFlow(area: number, upstream: Air): number {
  return positive(area, 'The effective area') * idealMassFlux(upstream.pressure, upstream.temperature, 0);
}

/**
 * Depression (Pa) that drives an air mass flow (kg/s) through an effective area (m2) from the air upstream; the inverse
 * of `throttleFlow`. Throws `RangeError` when the bores choke below that flow.
 */
export function depressionAt(massFlow: number, area: number, upstream: Air): number {
  if (notNegative(massFlow, 'The air flow') === 0) return 0;
  const most = chokedFlow(area, upstream);
  if (massFlow > most)
    throw new RangeError(
      `The bores choke: they pass at most ${Math.floor((100 * most) / massFlow)} % of the air asked for.`,
    );
  if (massFlow === most) return upstream.pressure * (1 - CRITICAL_PRESSURE_RATIO);
  const excess = (depression: number) => throttleFlow(area, depression, upstream).massFlow - massFlow;
  return findRoot(excess, 0, upstream.pressure * (1 - CRITICAL_PRESSURE_RATIO), 1e-6);
}

/**
 * Airflow rating (m3/s of upstream air) of an effective area (m2) at a test depression (Pa), compressible flow. The air
 * upstream is the standard atmosphere at sea level unless given.
 */
export function airflowRating(area: number, testDepression: number, upstream: Air = SEA_LEVEL): number {
  return throttleFlow(area, positive(testDepression, 'The test depression'), upstream).massFlow / upstream.density;
}

/**
 * Effective area (m2) behind an airflow rating (m3/s) at its test depression (Pa), compressible flow from the standard
 * atmosphere at sea level; the inverse of `airflowRating`.
 */
export function ratedArea(ratedFlow: number, testDepression: number): number {
  return positive(ratedFlow, 'The airflow rating') / airflowRating(1, testDepression);
}

/**
 * A rating (m3/s) restated for another test depression (Pa) by the square-root law, the trade's convention: 1.5 to 3.0
 * inHg gives a factor of sqrt(2) = 1.414, where compressible flow gives 1.37. Common practice.
 */
export function ratingAt(ratedFlow: number, testDepression: number, otherDepression: number): number {
  const ratio =
    positive(otherDepression, 'The other test depression') / positive(testDepression, 'The test depression');
  return positive(ratedFlow, 'The airflow rating') * Math.sqrt(ratio);
}
