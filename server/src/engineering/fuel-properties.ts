import { within } from './bounds.ts';
import { ZERO_CELSIUS } from './constants.ts';

/** `temperature` (K) when the liquid properties hold there: -40 to 80 degC. */
export function withinLiquidRange(temperature: number): number {
  within(temperature, ZERO_CELSIUS - 40, ZERO_CELSIUS + 80, 'The fuel temperature', 'temperature');
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
 * Thermal expansion coefficient at 15 degC (1/K) of a hydrocarbon liquid with the given density at 15 degC (kg/m3):
 * gasolines (K0 + K1 rho) / rho^2 with K0 = 346.42278, K1 = 0.43884, from 770 kg/m3 on the naphtha, jet and diesel ranges.
 * API Manual of Petroleum Measurement Standards ch. 11.1 (1980) = ASTM D1250 Table 54B, made for 653 to 1075 kg/m3
 * (coefficients read in public implementations of the table, the three heavier ranges from memory); lighter and heavier
 * liquids follow the nearest range. Throws `RangeError` outside 600 to 1200 kg/m3.
 */
export function hydrocarbonExpansion(density15: number): number {
  within(density15, 600, 1200, 'The density at 15 degC', 'density');
  const square = density15 ** 2;
  if (density15 <= 770.5) return (346.42278 + 0.43884 * density15) / square;
  if (density15 <= 787.5) return 2680.3206 / square - 0.00336312;
  if (density15 <= 838.5) return 594.5418 / square;
  return (186.9696 + 0.4862 * density15) / square;
}

/**
 * Ratio of the volume at 15 degC to the volume at `temperature` (K) for an expansion coefficient (1/K):
 * exp(-alpha dT (1 + 0.8 alpha dT)). ASTM D1250-80 (API MPMS ch. 11.1). Throws `RangeError` outside -40 to 80 degC.
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
 * apply. Antoine equation, constants of the NIST Chemistry WebBook (from memory). Against equations of state it is within
 * 0.5 % from 20 to 80 degC and low in the cold: 2 % at 0 degC, 6 % at -20, 13 % at -40. Throws `RangeError` outside -40 to
 * 100 degC.
 */
export function alcoholVaporPressure(alcohol: 'ethanol' | 'methanol', temperature: number): number {
  within(temperature, ZERO_CELSIUS - 40, ZERO_CELSIUS + 100, 'The fuel temperature', 'temperature');
  const { a, b, c } = antoine[alcohol];
  return 1e5 * 10 ** (a - b / (temperature + c));
}
