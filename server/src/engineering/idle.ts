import { airDensity, engineVolumeFlow } from './air.ts';
import { notNegative, positive, within } from './bounds.ts';
import { type Injection, pulsePeriod } from './injectors.ts';
import { linearHeldAt } from './interpolation.ts';

/** Absolute manifold pressure at idle (Pa). Common practice; a cam of long duration idles higher. */
export const IDLE_MANIFOLD_PRESSURE = 40e3;

/** Idle manifold pressure, kPa absolute, over intake duration, degrees at 0.050 in lift. */
const idleByCam: readonly (readonly [number, number])[] = [
  [195, 35],
  [205, 40],
  [218, 49],
  [228, 58],
  [238, 65],
  [250, 72],
  [265, 80],
];

/**
 * Absolute manifold pressure at idle (Pa) of an intake duration (degrees at 0.050 in lift), between the points of a table in
 * lines, beyond it held. Common practice, from memory: 19 inHg of vacuum for a stock cam, 15 at 218 degrees, 12 at 228, 8 at 250.
 * Throws `RangeError` outside 150 to 330 degrees.
 */
export function idleManifoldPressure(camDuration: number): number {
  const duration = within(camDuration, 150, 330, 'The cam duration in degrees');
  return (
    1e3 *
    linearHeldAt(
      idleByCam.map(([degrees]) => degrees),
      idleByCam.map(([, kilopascal]) => kilopascal),
      duration,
    )
  );
}

/** Volumetric efficiency at idle, referred to the air in the manifold. Common practice, from memory (0.4 to 0.6). */
export const IDLE_VOLUMETRIC_EFFICIENCY = 0.5;

/** Air temperature in the manifold at idle (K): 40 degC. Common practice. */
export const IDLE_AIR_TEMPERATURE = 313.15;

/**
 * Air flow (kg/s) at idle: swept volume flow at the density in the manifold; displacement m3, speed rev/s, absolute
 * manifold pressure Pa, air temperature K. Heywood eq. 2.27 with the manifold's density.
 */
export function idleAirFlow(idle: {
  displacement: number;
  speed: number;
  manifoldPressure?: number;
  airTemperature?: number;
  volumetricEfficiency?: number;
}): number {
  const density = airDensity(
    idle.manifoldPressure ?? IDLE_MANIFOLD_PRESSURE,
    idle.airTemperature ?? IDLE_AIR_TEMPERATURE,
  );
  const efficiency = idle.volumetricEfficiency ?? IDLE_VOLUMETRIC_EFFICIENCY;
  return engineVolumeFlow(idle.displacement, idle.speed, efficiency) * density;
}

/**
 * Smallest mean flow (kg/s) one injector can meter at idle: static flow * (shortest pulse - dead time) / period. The
 * shortest repeatable pulse (s) is the commanded one, dead time included. Throws `RangeError` when it is no longer than
 * the dead time: then no fuel flows.
 */
export function smallestFlow(shortestPulse: number, injection: Injection): number {
  const open = positive(shortestPulse, 'The shortest pulse') - notNegative(injection.deadTime, 'The dead time');
  if (open <= 0)
    throw new RangeError('The shortest pulse is no longer than the dead time, so the injector would not open.');
  const period = pulsePeriod(injection.speed, injection.pulsesPerCycle);
  return (positive(injection.staticFlow, 'The static flow') * open) / period;
}
