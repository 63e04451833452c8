import { positive, within } from './bounds.ts';
import { ATMOSPHERE, GAS_CONSTANT, ZERO_CELSIUS } from './constants.ts';

/** Ratio of specific heats of air. ISO 2533:1975; NACA Report 1135. */
export const HEAT_RATIO = 1.4;

/** Specific heat of air at constant pressure near ambient temperature, J/(kg K); textbook value. */
export const SPECIFIC_HEAT = 1005;

/** Sea-level pressure (Pa), temperature (K) and density (kg/m3) of the standard atmosphere. ISO 2533:1975. */
export const SEA_LEVEL = { pressure: ATMOSPHERE, temperature: 288.15, density: 1.225 } as const;

/** Air at rest: pressure in Pa absolute, temperature in K, density in kg/m3. */
export type Air = { pressure: number; temperature: number; density: number };

/**
 * Standard atmosphere at an altitude (m): T = 288.15 - 0.0065 H, p = 101325 (T / 288.15)^5.25588, ideal gas.
 * ISO 2533:1975, section 2. The altitude is taken as geopotential, which differs from a map's by under 0.1 % to 5 km.
 * Throws `RangeError` outside -2 to 11 km, the range of the formula.
 */
export function standardAir(altitude: number): Air {
  within(altitude, -2000, 11000, 'The altitude', 'length');
  const temperature = SEA_LEVEL.temperature - 0.0065 * altitude;
  const pressure = SEA_LEVEL.pressure * (temperature / SEA_LEVEL.temperature) ** 5.25588;
  return { pressure, temperature, density: airDensity(pressure, temperature) };
}

/** Density of dry air (kg/m3) at an absolute pressure (Pa) and temperature (K), ideal gas. ISO 2533:1975. */
export function airDensity(pressure: number, temperature: number): number {
  return positive(pressure, 'The air pressure') / (GAS_CONSTANT * positive(temperature, 'The air temperature'));
}

/** Saturation pressure of water vapor (Pa) at a temperature (K). CIPM-2007, appendix A.1. */
export function saturationPressure(temperature: number): number {
  within(temperature, ZERO_CELSIUS - 40, ZERO_CELSIUS + 70, 'The air temperature', 'temperature');
  return Math.exp(
    1.2378847e-5 * temperature ** 2 - 1.9121316e-2 * temperature + 33.93711047 - 6.3431645e3 / temperature,
  );
}

/**
 * Volume flow (m3/s) drawn by a four-stroke engine: V = Vd * N / 2 * VE, displacement in m3, speed in rev/s,
 * volumetric efficiency referred to the air the flow is counted in. Heywood eq. 2.27.
 */
export function engineVolumeFlow(displacement: number, speed: number, volumetricEfficiency: number): number {
  return (
    ((positive(displacement, 'The displacement') * positive(speed, 'The engine speed')) / 2) *
    positive(volumetricEfficiency, 'The volumetric efficiency')
  );
}

/** Mass flow (kg/s) of a volume flow (m3/s) of air of the given density (kg/m3). */
export function massFlow(volumeFlow: number, density: number): number {
  return positive(volumeFlow, 'The air flow') * positive(density, 'The air density');
}
