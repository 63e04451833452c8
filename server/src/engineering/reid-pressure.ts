import { positive, within } from './bounds.ts';
import { PSI, ZERO_CELSIUS } from './constants.ts';
import { curveAt, pchip } from './interpolation.ts';

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

/** A seasonal class of ASTM D5798, 1 (hottest season) to 4 (coldest). */
export type E85Class = 1 | 2 | 3 | 4;

/**
 * Lowest and highest Reid vapor pressure (Pa) of E85, 51 to 83 % ethanol, by seasonal class. ASTM D5798-15, read in the
 * US DOE Alternative Fuels Data Center's copy: 5.5-9.0, 7.0-9.5, 8.5-12.0, 9.5-15.0 psi.
 */
export const e85ReidVaporPressures: Readonly<Record<E85Class, { low: number; high: number }>> = {
  1: { low: 5.5 * PSI, high: 9 * PSI },
  2: { low: 7 * PSI, high: 9.5 * PSI },
  3: { low: 8.5 * PSI, high: 12 * PSI },
  4: { low: 9.5 * PSI, high: 15 * PSI },
};

/** Reid vapor pressure of neat alcohols, Pa. US DOE Alternative Fuels Data Center, Properties of Fuels: 2.3 and 4.6 psi. */
export const alcoholReidVaporPressure = { ethanol: 2.3 * PSI, methanol: 4.6 * PSI } as const;

/** A measured point of the blend curve: ethanol by volume, change in psi of a 9 psi gasoline, and who says so. */
export const blendPoints: readonly { share: number; change: number; source: string }[] = [
  { share: 0, change: 0, source: 'definition' },
  { share: 0.02, change: 0.8, source: 'from memory: most of the rise comes with the first 2 %' },
  { share: 0.05, change: 1, source: 'from memory: as 10 %' },
  { share: 0.1, change: 1, source: 'US volatility rule, 1 psi for 9 to 10 %; NREL discussion document (2012), read' },
  { share: 0.15, change: 1, source: 'NREL discussion document (2012), read: not to be told from 10 %' },
  {
    share: 0.2,
    change: 0.9,
    source: 'from memory; NREL discussion document (2012), read: hardly to be told from 10 %',
  },
  { share: 0.5, change: 0, source: 'from memory: back at the gasoline it was blended from' },
  {
    share: 0.82,
    change: -2.75,
    source: 'US test fuel of 80 to 83 %, 6.0 to 6.5 psi from a 9 psi fuel: 40 CFR 1065.725, read',
  },
  { share: 1, change: 2.3 - 9, source: 'US DOE Alternative Fuels Data Center: ethanol 2.3 psi' },
];

const excess = pchip(
  blendPoints.map(({ share }) => share),
  blendPoints.map(({ share, change }) => PSI * (change - share * (2.3 - 9))),
);

/**
 * Reid vapor pressure (Pa) of gasoline of a Reid vapor pressure (Pa) with a share of ethanol by volume: mean by volume of
 * gasoline and ethanol plus the excess of `blendPoints` over that mean, between the points by a shape-preserving cubic. The
 * excess was seen on 9 psi gasoline and is taken for others; real blends scatter by some 0.5 psi.
 * @throws RangeError unless the pressure is above zero and the share from 0 to 1
 */
export function reidOfEthanolBlend(gasolineReid: number, ethanolShare: number): number {
  within(ethanolShare, 0, 1, 'The share of ethanol');
  const base = positive(gasolineReid, 'The Reid vapor pressure of the gasoline');
  const mean = base + ethanolShare * (alcoholReidVaporPressure.ethanol - base);
  return mean + curveAt(excess, ethanolShare);
}

/**
 * Reid vapor pressure (Pa) to take for gasoline where none is stated, by the hottest day's air (K): 7.8 psi above 35
 * degC, else 9 psi. Common practice: the hottest regions sell the less volatile summer classes of ASTM D4814.
 * @throws RangeError unless the temperature is above zero
 */
export function usualReidVaporPressure(hottestDay: number): number {
  return positive(hottestDay, "The hottest day's temperature") > 35 + ZERO_CELSIUS ? 7.8 * PSI : 9 * PSI;
}

/**
 * Class of E85 sold where the coldest morning has the air temperature (K): 1 above 5 degC, 2 above -5, 3 above -15, else
 * 4. ASTM D5798, from memory; the standard goes by state and month.
 * @throws RangeError unless the temperature is above zero
 */
export function e85ClassFor(coldestDay: number): E85Class {
  const celsius = positive(coldestDay, "The coldest day's temperature") - ZERO_CELSIUS;
  if (celsius > 5) return 1;
  if (celsius > -5) return 2;
  return celsius > -15 ? 3 : 4;
}
