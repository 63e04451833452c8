import { HEAT_RATIO, SPECIFIC_HEAT } from './air.ts';
import { notNegative, positive, within } from './bounds.ts';
import { ATMOSPHERE } from './constants.ts';
import type { Induction } from './demand.ts';
import type { InductionPath } from './injectors.ts';

/** Adiabatic efficiency of a compressor. Common practice, from memory. */
export const ADIABATIC_EFFICIENCY = { roots: 0.55, centrifugal: 0.7, turbo: 0.7 } as const;

/** Polytropic exponent of the compression stroke. Heywood section 9.2.2 gives about 1.3 for unburned mixture. */
export const COMPRESSION_EXPONENT = 1.3;

/**
 * Pressure ratio of a compressor: (ambient + boost) / (ambient - inlet loss); boost gauge Pa, ambient absolute Pa at the
 * site, inlet loss Pa (air cleaner, and the throttle body when it is ahead). Definition.
 */
export function pressureRatio(boost: number, ambient: number, inletLoss = 0): number {
  const outlet = positive(ambient, 'The ambient pressure') + notNegative(boost, 'The boost');
  return outlet / positive(ambient - notNegative(inletLoss, 'The inlet loss'), 'The pressure at the compressor inlet');
}

/**
 * Temperature (K) behind a compressor: T1 (1 + (PR^((g-1)/g) - 1) / eff), inlet temperature K, adiabatic efficiency
 * above 0 and up to 1. Heywood eq. 6.42. Throws `RangeError` for a pressure ratio below 1.
 */
export function compressorOutletTemperature(inletTemperature: number, ratio: number, efficiency: number): number {
  const ideal = atLeastOne(ratio) ** ((HEAT_RATIO - 1) / HEAT_RATIO) - 1;
  return positive(inletTemperature, 'The inlet temperature') * (1 + ideal / efficient(efficiency));
}

/**
 * Temperature (K) behind an intercooler: hot - effectiveness * (hot - coolant); temperatures K, effectiveness 0 to 1.
 * Definition of effectiveness (Kays and London, Compact Heat Exchangers). Throws `RangeError` when the coolant is hotter
 * than the air.
 */
export function intercoolerOutletTemperature(hot: number, coolant: number, effectiveness: number): number {
  within(effectiveness, 0, 1, 'The intercooler effectiveness');
  if (positive(coolant, 'The coolant temperature') > positive(hot, 'The air temperature'))
    throw new RangeError('The intercooler would heat the air: its coolant is hotter than the air from the compressor.');
  return hot - effectiveness * (hot - coolant);
}

/** Density in the manifold over density at the inlet: pressure ratio * T inlet / T manifold (K). Ideal gas. */
export function densityRatio(ratio: number, inletTemperature: number, manifoldTemperature: number): number {
  return (
    (atLeastOne(ratio) * positive(inletTemperature, 'The inlet temperature')) /
    positive(manifoldTemperature, 'The manifold temperature')
  );
}

/** Power (W) a compressor takes for an air flow (kg/s): m cp (T2 - T1); temperatures K. First law, cp = 1005 J/(kg K). */
export function compressorPower(airFlow: number, inletTemperature: number, outletTemperature: number): number {
  const rise =
    positive(outletTemperature, 'The outlet temperature') - positive(inletTemperature, 'The inlet temperature');
  return positive(airFlow, 'The air flow') * SPECIFIC_HEAT * notNegative(rise, 'The temperature rise');
}

/**
 * Brake power (W) estimated from the natural figure (W): natural power * density ratio - power to drive the compressor
 * (W, 0 for a turbo). Common practice: it takes the same mixture, timing and friction. Throws `RangeError` when the drive
 * takes all of it.
 */
export function boostedPower(naturalPower: number, densityRatio: number, drivePower = 0): number {
  const indicated = positive(naturalPower, 'The natural power') * positive(densityRatio, 'The density ratio');
  return positive(
    indicated - notNegative(drivePower, 'The drive power'),
    'The power left after driving the compressor',
  );
}

/**
 * Pressure (Pa absolute) and temperature (K) at the end of the compression stroke, without combustion: p r^n and
 * T r^(n-1), from manifold pressure (Pa absolute) and temperature (K). Polytropic; Heywood section 9.2.2. Real pressures are
 * lower where the intake valve closes late.
 */
export function endOfCompression(
  manifold: { pressure: number; temperature: number },
  compressionRatio: number,
  exponent = COMPRESSION_EXPONENT,
): { pressure: number; temperature: number } {
  within(compressionRatio, 1, 30, 'The compression ratio');
  within(exponent, 1, HEAT_RATIO, 'The polytropic exponent');
  return {
    pressure: positive(manifold.pressure, 'The manifold pressure') * compressionRatio ** exponent,
    temperature: positive(manifold.temperature, 'The manifold temperature') * compressionRatio ** (exponent - 1),
  };
}

/**
 * Effective compression ratio by the trade's convention: compression ratio * manifold pressure (absolute, Pa) over that of
 * the sea; a manifold below the sea's pressure counts as the sea's, so that altitude allows nothing more. Common practice;
 * it counts pressure and forgets heat, so it is a caution and no knock limit.
 */
export function effectiveCompressionRatio(compressionRatio: number, manifoldPressure: number): number {
  const ratio = positive(manifoldPressure, 'The manifold pressure') / ATMOSPHERE;
  return within(compressionRatio, 1, 30, 'The compression ratio') * Math.max(1, ratio);
}

/** Highest absolute manifold pressure (Pa) a sensor must read: the highest ambient pressure the car meets + boost (gauge Pa). */
export function highestManifoldPressure(boost: number, highestAmbient: number): number {
  return positive(highestAmbient, 'The ambient pressure') + notNegative(boost, 'The boost');
}

/** Where the vacuum and boost reference of the computer must be taken. Common practice. */
export function referencePlace(induction: Induction, path: InductionPath): string {
  if (induction === 'natural')
    return 'the intake manifold, below the throttle plates (full manifold vacuum, not ported)';
  if (induction === 'roots')
    return 'the intake manifold under the blower: above it there is vacuum while the engine sees boost';
  if (path === 'blow-through')
    return 'the plenum below the throttle plates; the hat over the throttle body must be sealed and the fuel regulator referenced to it';
  return 'the plenum between the compressor and the intake valves, never ahead of the compressor';
}

function atLeastOne(ratio: number): number {
  return within(ratio, 1, 20, 'The pressure ratio');
}

function efficient(efficiency: number): number {
  return within(positive(efficiency, 'The adiabatic efficiency'), 0, 1, 'The adiabatic efficiency');
}
