import { compressorOutletTemperature, intercoolerOutletTemperature } from './boost.ts';
import { notNegative, positive } from './bounds.ts';
import { airShare, dryPressure, type RatingAir } from './claim.ts';
import type { Induction } from './demand.ts';

/** Air around the engine: `RatingAir` with its pressure, vapor and all, Pa. */
export type Ambient = RatingAir & { readonly pressure: number };

/**
 * Air of one pressure, Pa, temperature, K, and relative humidity, 0 to 1; usual where none is given.
 * @throws RangeError as `dryPressure`
 */
export function ambientOf(pressure: number, temperature: number, relativeHumidity?: number): Ambient {
  return { pressure, temperature, dryPressure: dryPressure(pressure, temperature, relativeHumidity) };
}

/** What an engine keeps while the air around it changes. */
export type Keeps = 'nothing' | 'pressure-ratio' | 'gauge-boost' | 'mass-flow';

/**
 * What an engine keeps by its induction: a natural one follows the air; a blower geared to the crank, roots or centrifugal,
 * keeps its pressure ratio; a turbo, whose wastegate feels the atmosphere, its gauge boost; one whose boost is regulated
 * to an absolute pressure its mass flow. Common practice.
 */
export function keeps(induction: Induction, absolute = false): Keeps {
  if (induction === 'natural') return 'nothing';
  if (absolute) return 'mass-flow';
  return induction === 'turbo' ? 'gauge-boost' : 'pressure-ratio';
}

/** A compressor and its intercooler: boost, gauge Pa in the claim's air; adiabatic efficiency; effectiveness, 0 without a cooler. */
export type Charger = { readonly boost: number; readonly efficiency: number; readonly effectiveness: number };

/**
 * Absolute pressure, Pa, and temperature, K, behind compressor and intercooler on a day, for a charger whose boost was
 * measured in the claim's air. A pressure ratio kept gives less gauge boost in thin air, gauge boost kept a higher ratio
 * and hotter air, an absolute pressure kept the pressure of the claim. Source: Heywood eq. 6.42; the cooler at ambient.
 * @throws RangeError for a quantity out of its range
 */
export function chargeOf(
  kept: Keeps,
  charger: Charger,
  claim: Ambient,
  on: Ambient,
): { pressure: number; temperature: number } {
  const ambient = positive(on.pressure, 'The air pressure');
  if (kept === 'nothing') return { pressure: ambient, temperature: positive(on.temperature, 'The air temperature') };
  const boost = notNegative(charger.boost, 'The boost');
  const claimed = positive(claim.pressure, "The pressure of the claim's air");
  const ratios = {
    'pressure-ratio': (claimed + boost) / claimed,
    'gauge-boost': (ambient + boost) / ambient,
    'mass-flow': Math.max(1, (claimed + boost) / ambient),
  };
  const ratio = ratios[kept];
  const hot = compressorOutletTemperature(on.temperature, ratio, charger.efficiency);
  return {
    pressure: ratio * ambient,
    temperature: intercoolerOutletTemperature(hot, on.temperature, charger.effectiveness),
  };
}

/**
 * Air mass an engine draws on a day over that in the claim's air, at the same speed and volumetric efficiency: p_dry /
 * sqrt(T) of the charge, not its density, since warm cylinders even the temperature out. 1 where mass flow is kept.
 * Source: SAE J1349's air term; for charged engines the same term behind the compressor, an estimate.
 * @throws RangeError for a quantity out of its range
 */
export function airMassRatio(kept: Keeps, charger: Charger, claim: Ambient, on: Ambient): number {
  if (kept === 'mass-flow') return 1;
  const share = (air: Ambient) => {
    const charge = chargeOf(kept, charger, claim, air);
    const dry = air.dryPressure / air.pressure;
    return airShare({ dryPressure: charge.pressure * dry, temperature: charge.temperature });
  };
  return share(on) / share(claim);
}
