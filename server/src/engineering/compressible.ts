import { HEAT_RATIO } from './air.ts';
import { notNegative, positive, said } from './bounds.ts';
import { GAS_CONSTANT } from './constants.ts';

/**
 * Isentropic flow of air. NACA Report 1135 (1953), Equations, Tables, and Charts for Compressible Flow; the heat ratio
 * is 1.4 throughout.
 */

/** Throat pressure over rest pressure at and below which the flow is choked: 0.5283. NACA Report 1135, eq. 44 at M = 1. */
export const CRITICAL_PRESSURE_RATIO = (2 / (HEAT_RATIO + 1)) ** (HEAT_RATIO / (HEAT_RATIO - 1));

/**
 * Ideal mass flux (kg/s per m2) from rest at `pressure` (Pa absolute) and `temperature` (K) into `throatPressure` (Pa):
 * p0 / sqrt(R T0) * sqrt(2 g / (g - 1) (r^(2/g) - r^((g+1)/g))), held at its choked value below the critical ratio.
 * Heywood, Internal Combustion Engine Fundamentals, eqs. C.8 and C.9. Throws `RangeError` when the throat pressure is
 * above the pressure at rest.
 */
export function idealMassFlux(pressure: number, temperature: number, throatPressure: number): number {
  positive(pressure, 'The pressure upstream');
  positive(temperature, 'The temperature upstream');
  notNegative(throatPressure, 'The pressure in the bores');
  if (throatPressure > pressure)
    throw new RangeError(
      `Air flows toward the lower pressure: ${said(throatPressure, 'absolute-pressure')} in the bores is above ${said(pressure, 'absolute-pressure')} upstream.`,
    );
  const ratio = Math.max(throatPressure / pressure, CRITICAL_PRESSURE_RATIO);
  const shape = ratio ** (2 / HEAT_RATIO) - ratio ** ((HEAT_RATIO + 1) / HEAT_RATIO);
  const factor = (2 * HEAT_RATIO) / (HEAT_RATIO - 1);
  return (pressure / Math.sqrt(GAS_CONSTANT * temperature)) * Math.sqrt(factor * Math.max(shape, 0));
}
