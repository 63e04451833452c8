import { finite, notNegative, positive, within } from './bounds.ts';
import { GRAVITY, PSI } from './constants.ts';
import { findRoot } from './roots.ts';

const rankinePerKelvin = 1.8;

/** Slope of the ASTM distillation curve at 10 % evaporated, degF per percent: motor gasoline. Source: EPA AP-42 ch. 7.1. */
export const motorGasolineSlope = 3;

/** ln(P / PSI) = a - b / (T / degR): the two constants of a gasoline's vapor-pressure line. */
export type VaporConstants = { readonly a: number; readonly b: number };

/** The suction side of a pump. Pressures absolute in Pa, rise and margin in m, density in kg/m3. */
export type Suction = {
  /** Absolute pressure on the fuel in the tank: the atmosphere's when the tank is vented. */
  readonly tankPressure: number;
  readonly density: number;
  /** Height of the pump's inlet above the fuel's surface; negative when the fuel stands above the pump. */
  readonly rise: number;
  /** Friction loss of suction line and pre-filter, Pa, at the pump's full flow. */
  readonly loss: number;
};

/** Where the margin is gone: at the temperature, or already below it, or only above it, in K. */
export type MarginTemperature = { readonly relation: 'at' | 'below' | 'above'; readonly temperature: number };

/**
 * Constants of the true-vapor-pressure line of gasoline from its Reid vapor pressure, Pa, and distillation slope.
 * Source: EPA AP-42, 5th ed., vol. I, ch. 7.1 (June 2020), figure 7.1-14b; figure 7.1-15 is the same line.
 * @throws RangeError unless both are above zero
 */
export function gasolineVaporConstants(reidVaporPressure: number, slope = motorGasolineSlope): VaporConstants {
  const logReid = Math.log10(positive(reidVaporPressure, 'The Reid vapor pressure') / PSI);
  const root = Math.sqrt(positive(slope, 'The distillation slope'));
  return {
    a: 0.7553 * root * logReid - 1.854 * root - 2.013 * logReid + 15.64,
    b: 413 * root * logReid - 1042 * root - 2416 * logReid + 8742,
  };
}

/**
 * True vapor pressure of gasoline, Pa absolute, from its Reid vapor pressure, Pa, at a temperature, K.
 * Source: EPA AP-42 ch. 7.1, figure 7.1-14b. Real gasolines scatter about it by some 15 %. It is not for alcohol blends:
 * see `vaporPressureDoubts`.
 * @throws RangeError unless the pressure is above zero and the temperature from 200 to 450 K
 */
export function gasolineVaporPressure(
  reidVaporPressure: number,
  temperature: number,
  slope = motorGasolineSlope,
): number {
  within(temperature, 200, 450, 'The fuel temperature', 'temperature');
  const { a, b } = gasolineVaporConstants(reidVaporPressure, slope);
  return PSI * Math.exp(a - b / (temperature * rankinePerKelvin));
}

/** Why the gasoline vapor-pressure formula may not hold. */
export type VaporPressureDoubt = 'alcohol' | 'reid-pressure' | 'temperature';

/**
 * What puts the gasoline vapor-pressure formula in doubt; it holds when the list is empty. It was made for hydrocarbon
 * gasoline: any alcohol changes the curve. Range of the chart behind it: 0 to 140 degF (AP-42 figure 7.1-14a), Reid
 * vapor pressure 2 to 20 psi (from memory).
 * @throws RangeError for a quantity that is no number or a share not from 0 to 1
 */
export function vaporPressureDoubts(fuel: {
  reidVaporPressure: number;
  temperature: number;
  alcoholShare: number;
}): VaporPressureDoubt[] {
  const doubts: VaporPressureDoubt[] = [];
  if (within(fuel.alcoholShare, 0, 1, 'The share of alcohol') > 0) doubts.push('alcohol');
  const reid = positive(fuel.reidVaporPressure, 'The Reid vapor pressure') / PSI;
  if (reid < 2 || reid > 20) doubts.push('reid-pressure');
  const fahrenheit = positive(fuel.temperature, 'The fuel temperature in K') * rankinePerKelvin - 459.67;
  if (fahrenheit < 0 || fahrenheit > 140) doubts.push('temperature');
  return doubts;
}

/**
 * Net positive suction head available, m of fuel: (p - p_vapor - loss) / (rho g) - rise, p and p_vapor absolute in Pa.
 * Below zero the fuel boils before it reaches the pump. Source: definition, ANSI/HI 9.6.1.
 * @throws RangeError for a quantity out of its range
 */
export function suctionHeadAvailable(suction: Suction, vaporPressure: number): number {
  const free =
    positive(suction.tankPressure, 'The absolute pressure in the tank') -
    notNegative(vaporPressure, 'The vapor pressure') -
    notNegative(suction.loss, 'The loss of the suction side');
  return (
    free / (positive(suction.density, 'The density') * GRAVITY) -
    finite(suction.rise, 'The height of the pump above the fuel')
  );
}

/**
 * Fuel temperature, K, at which the suction head falls to `margin`, m. `vaporPressureAt` gives the vapor pressure, Pa, at
 * a temperature in K and must rise with it; density and loss are taken as constant. The search runs from `coldest` to
 * `hottest`, K; the relation says so when the margin is gone already below it or only above it.
 * @throws RangeError for a quantity out of its range
 */
export function temperatureAtMargin(
  suction: Suction,
  vaporPressureAt: (temperature: number) => number,
  margin: number,
  coldest = 233.15,
  hottest = 393.15,
): MarginTemperature {
  finite(margin, 'The suction margin');
  const excess = (temperature: number) => suctionHeadAvailable(suction, vaporPressureAt(temperature)) - margin;
  if (excess(coldest) <= 0) return { relation: 'below', temperature: coldest };
  if (excess(hottest) >= 0) return { relation: 'above', temperature: hottest };
  return { relation: 'at', temperature: findRoot(excess, coldest, hottest, 1e-6) };
}
