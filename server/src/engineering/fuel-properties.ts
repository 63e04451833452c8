import { within } from './bounds.ts';

const ZERO_CELSIUS = 273.15;

/** `temperature` (K) when the liquid properties hold there: -20 to 60 degC. */
export function withinLiquidRange(temperature: number): number {
  within(temperature - ZERO_CELSIUS, -20, 60, 'The fuel temperature in degC');
  return temperature;
}

/** 15 degC, the temperature at which the trade states fuel density (K). */
export const REFERENCE_TEMPERATURE = 288.15;

/**
 * Kinematic viscosity of a liquid as nu = exp(a + b / T), nu in m2/s, T in K. Andrade, Philosophical Magazine 17
 * (1934) 497. The form survives logarithmic mixing: a and b of a blend are the volume-weighted means.
 */
export type Viscosity = { a: number; b: number };

/** The Andrade line through two measured points, temperatures in K and kinematic viscosities in m2/s. */
export function viscosityThrough(
  first: { temperature: number; viscosity: number },
  second: { temperature: number; viscosity: number },
): Viscosity {
  const b = Math.log(first.viscosity / second.viscosity) / (1 / first.temperature - 1 / second.temperature);
  return { a: Math.log(first.viscosity) - b / first.temperature, b };
}

/**
 * Thermal expansion coefficient at 15 degC (1/K) of gasoline with the given density at 15 degC (kg/m3).
 * API Manual of Petroleum Measurement Standards ch. 11.1 (1980) = ASTM D1250 Table 54B, gasolines:
 * K0 = 346.42278, K1 = 0.43884, 653 to 770 kg/m3 (coefficients read in public implementations of the table).
 */
export function gasolineExpansion(density15: number): number {
  within(density15, 653, 770, 'The density of gasoline at 15 degC in kg/m3');
  return (346.42278 + 0.43884 * density15) / density15 ** 2;
}

/**
 * Ratio of the volume at 15 degC to the volume at `temperature` (K) for an expansion coefficient (1/K):
 * exp(-alpha dT (1 + 0.8 alpha dT)). ASTM D1250-80 (API MPMS ch. 11.1). Throws `RangeError` outside -20 to 60 degC.
 */
export function volumeCorrection(expansion: number, temperature: number): number {
  withinLiquidRange(temperature);
  const step = expansion * (temperature - REFERENCE_TEMPERATURE);
  return Math.exp(-step * (1 + 0.8 * step));
}

/** Antoine constants for log10(p / bar) = a - b / (T / K + c); NIST Chemistry WebBook, from memory. */
const antoine = {
  ethanol: { a: 5.24677, b: 1598.673, c: -46.424 },
  methanol: { a: 5.20409, b: 1581.341, c: -33.5 },
} as const;

/**
 * Vapor pressure (Pa) of pure ethanol or methanol at `temperature` (K), where the gasoline formula of AP-42 does not
 * apply. Antoine equation, constants of the NIST Chemistry WebBook (from memory, checked against an equation of
 * state). Throws `RangeError` outside -20 to 80 degC.
 */
export function alcoholVaporPressure(alcohol: 'ethanol' | 'methanol', temperature: number): number {
  within(temperature - ZERO_CELSIUS, -20, 80, 'The fuel temperature in degC');
  const { a, b, c } = antoine[alcohol];
  return 1e5 * 10 ** (a - b / (temperature + c));
}

/**
 * Highest Reid vapor pressure (Pa) of each seasonal volatility class of gasoline. ASTM D4814 Table 1; the kPa row
 * 54, 62, 69, 79, 93, 103 was read in a public gasoline reference, the class letters and psi figures are from memory.
 */
export const reidVaporPressureLimits = {
  AA: 54e3,
  A: 62e3,
  B: 69e3,
  C: 79e3,
  D: 93e3,
  E: 103e3,
} as const;

/** A seasonal volatility class of ASTM D4814, AA (hottest season) to E (coldest). */
export type VolatilityClass = keyof typeof reidVaporPressureLimits;

/** Extra Reid vapor pressure (Pa) allowed to gasoline with 9 to 10 % ethanol in summer: 1 psi (US volatility rule). */
export const ETHANOL_VAPOR_ALLOWANCE = 6894.757;
