import { saturationPressure } from './air.ts';
import { positive, within } from './bounds.ts';
import { ATMOSPHERE, ZERO_CELSIUS } from './constants.ts';

/** What air a power claim holds for: a standard's, the older standard's, or that of the site on an ordinary day. */
export type ClaimCondition = 'standard' | 'older-standard' | 'as-driven';

/** Where a power claim was measured. */
export type ClaimPlace = 'crank' | 'wheels';

/** Air an engine is rated or runs in: pressure without the water vapor, Pa, and temperature, K. */
export type RatingAir = { readonly dryPressure: number; readonly temperature: number };

/**
 * Air of the standards. `standard`: SAE J1349, 99 kPa dry and 25 degC. `older-standard`: SAE J607, 29.92 inHg dry and
 * 60 degF, which dynamometer sheets call STD. Both read in secondary copies.
 */
export const standardConditions = {
  standard: { dryPressure: 99e3, temperature: 25 + ZERO_CELSIUS },
  'older-standard': { dryPressure: ATMOSPHERE, temperature: (60 + 459.67) / 1.8 },
} as const satisfies Record<string, RatingAir>;

/** Air for which SAE J1349 means its factor, from memory: total pressure in Pa, temperature in K. */
const factorRange = {
  pressure: { low: 90e3, high: 105e3 },
  temperature: { low: 15 + ZERO_CELSIUS, high: 35 + ZERO_CELSIUS },
} as const;

/** Share of the friction in the indicated power that SAE J1349 takes, as 0.18 to 1.18: a mechanical efficiency of 85 %. */
const FRICTION = 0.18;

/** Relative humidity where none is known: with it air of 25 degC holds 1 kPa of vapor, which SAE J1349's total pressure of 100 kPa implies. */
export const RELATIVE_HUMIDITY = 0.3;

/**
 * Pressure, Pa, of air without its water vapor, from its pressure, Pa, temperature, K, and relative humidity, 0 to 1.
 * Colder than -40 degC there is none to speak of. Source: Dalton's law with the saturation pressure of CIPM-2007.
 * @throws RangeError for air hotter than 70 degC, a humidity not from 0 to 1, or a pressure that the vapor alone exceeds
 */
export function dryPressure(pressure: number, temperature: number, relativeHumidity = RELATIVE_HUMIDITY): number {
  within(relativeHumidity, 0, 1, 'The relative humidity');
  const vapor = relativeHumidity * saturationPressure(Math.max(positive(temperature, 'The air temperature'), 233.15));
  return positive(positive(pressure, 'The air pressure') - vapor, 'The pressure of the dry air');
}

/**
 * Air an engine draws over that in SAE J1349's air, at equal volumetric efficiency: p_dry / 99 kPa * sqrt(298.15 K / T).
 * Source: SAE J1349, read in secondary copies. @throws RangeError unless pressure and temperature are above zero
 */
export function airShare(air: RatingAir): number {
  const { dryPressure: pressure, temperature } = standardConditions.standard;
  const pressures = positive(air.dryPressure, 'The pressure of the dry air') / pressure;
  return pressures * Math.sqrt(temperature / positive(air.temperature, 'The air temperature'));
}

/**
 * Factor that brings the power seen in some air to SAE J1349's air: 1.180 (99 kPa / p_dry) ((t + 273) / 298)^0.5 - 0.18.
 * For natural engines and those without a pressure regulated absolutely. Source: SAE J1349 (1990), read in secondary
 * copies. @throws RangeError unless pressure and temperature are above zero
 */
export function correctionFactor(air: RatingAir): number {
  return (1 + FRICTION) / airShare(air) - FRICTION;
}

/**
 * Factor that brings the power seen in some air to the older standard's: (29.92 inHg / p_dry) ((t + 460 degF) / 520)^0.5,
 * friction left out. Source: SAE J607, read in secondary copies with a worked example. @throws RangeError
 */
export function olderCorrectionFactor(air: RatingAir): number {
  return airShare(standardConditions['older-standard']) / airShare(air);
}

/** True where SAE J1349 does not mean its factor: outside 90 to 105 kPa (total pressure, Pa) or 15 to 35 degC (K); from memory. */
export function isExtrapolated(pressure: number, temperature: number): boolean {
  const { pressure: pressures, temperature: temperatures } = factorRange;
  return (
    positive(pressure, 'The air pressure') < pressures.low ||
    pressure > pressures.high ||
    positive(temperature, 'The air temperature') < temperatures.low ||
    temperature > temperatures.high
  );
}

/**
 * Power, W, that a claim, W, is worth in SAE J1349's air. The older standard's figures are 4.0 % higher; a claim as driven
 * holds in the air of `site` and is brought back from there. Source: `correctionFactor`, `olderCorrectionFactor`.
 * @throws RangeError unless the power is above zero
 */
export function standardPower(claim: number, condition: ClaimCondition, site: RatingAir): number {
  positive(claim, 'The power');
  if (condition === 'as-driven') return claim * correctionFactor(site);
  return condition === 'standard' ? claim : claim / olderCorrectionFactor(standardConditions.standard);
}

/**
 * Power, W, at the site of a claim, W, for a condition. Source: `standardPower`, then SAE J1349's factor backwards.
 * @throws RangeError unless the power is above zero
 */
export function powerAtSite(claim: number, condition: ClaimCondition, site: RatingAir): number {
  if (condition === 'as-driven') return positive(claim, 'The power');
  return standardPower(claim, condition, site) / correctionFactor(site);
}

/** Share of the crank's power that gearbox, axle and tires take. */
export const drivelineLoss = {
  value: 0.15,
  source: 'common practice: some 15 % behind a manual gearbox, 20 % behind an automatic',
} as const;

/** Power, W, at the crank from that at the wheels, W, and the driveline's loss, a share below 1. @throws RangeError */
export function crankPower(wheelPower: number, loss: number = drivelineLoss.value): number {
  within(loss, 0, 0.9, 'The loss of the driveline');
  return positive(wheelPower, 'The power at the wheels') / (1 - loss);
}
