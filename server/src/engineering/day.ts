import { standardAir } from './air.ts';
import { compressorOutletTemperature, intercoolerOutletTemperature } from './boost.ts';
import { type Kind, notNegative, positive, said, within } from './bounds.ts';
import { airShare, dryPressure, type RatingAir } from './claim.ts';
import { ZERO_CELSIUS } from './constants.ts';
import type { Induction } from './demand.ts';

/**
 * One consistent set of conditions: altitude, m; air temperature, K, pressure and pressure without the water vapor, Pa;
 * fuel temperature, K; battery voltage, V. Never the air of one day with the fuel of another.
 */
export type Day = RatingAir & {
  readonly altitude: number;
  readonly pressure: number;
  readonly fuelTemperature: number;
  readonly battery: number;
};

/**
 * A day at an altitude, m, with its air and fuel temperatures, K, battery voltage, V, and relative humidity, 0 to 1.
 * Source: ISO 2533:1975 for the pressure. @throws RangeError outside -2 to 11 km, -60 to 70 degC, or a voltage not above zero
 */
export function day(of: {
  altitude: number;
  temperature: number;
  fuelTemperature: number;
  battery: number;
  relativeHumidity?: number;
}): Day {
  within(of.temperature, ZERO_CELSIUS - 60, ZERO_CELSIUS + 70, 'The air temperature', 'temperature');
  const { pressure } = standardAir(of.altitude);
  return {
    altitude: of.altitude,
    temperature: of.temperature,
    pressure,
    dryPressure: dryPressure(pressure, of.temperature, of.relativeHumidity),
    fuelTemperature: positive(of.fuelTemperature, 'The fuel temperature'),
    battery: positive(of.battery, 'The battery voltage'),
  };
}

/** What a site can throw at a car: altitudes in m, air temperatures in K, the fuel's rise over the air on a hot day in K, volts. */
export type Site = {
  readonly lowest: number;
  readonly ordinary: number;
  readonly highest: number;
  readonly coldest: number;
  readonly usual: number;
  readonly hottest: number;
  readonly fuelRise: number;
  readonly battery: number;
};

/**
 * The days every check runs on. The coldest is at the lowest altitude and finds the fuel as cold as the air; the hottest
 * is at the highest, its fuel warmer than the air by the rise; the ordinary day's fuel has half of it.
 * @throws RangeError as `day`, or when lowest, ordinary and highest, or coldest, usual and hottest, are not in order
 */
export function daysOf(site: Site): { coldest: Day; ordinary: Day; hottest: Day } {
  inOrder(site.lowest, site.ordinary, site.highest, 'altitudes', 'length');
  inOrder(site.coldest, site.usual, site.hottest, 'air temperatures', 'temperature');
  const rise = notNegative(site.fuelRise, 'The rise of the fuel temperature');
  const one = (altitude: number, temperature: number, share: number) =>
    day({ altitude, temperature, fuelTemperature: temperature + share * rise, battery: site.battery });
  return {
    coldest: one(site.lowest, site.coldest, 0),
    ordinary: one(site.ordinary, site.usual, 0.5),
    hottest: one(site.highest, site.hottest, 1),
  };
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

/** Air around the engine: `RatingAir` with its pressure, vapor and all, Pa. */
export type Ambient = RatingAir & { readonly pressure: number };

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

function inOrder(low: number, middle: number, high: number, what: string, kind: Kind): void {
  if (!(low <= middle && middle <= high)) {
    throw new RangeError(
      `The ${what} must rise from lowest to highest, but they are ${said(low, kind)}, ${said(middle, kind)} and ${said(high, kind)}.`,
    );
  }
}
