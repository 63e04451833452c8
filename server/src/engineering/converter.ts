import { positive } from './bounds.ts';
import { powerOfTorque } from './demand.ts';

/**
 * Power (W) a torque converter takes with its output held: the torque it holds the engine with grows with the square of the
 * speed, so T_idle = T_stall (N_idle / N_stall)^2. Speeds in rev/s, torque at the stall speed in N m. Similarity law of
 * hydrodynamic machines (Euler); SAE J643 rates converters by it, from memory. Throws `RangeError` for values not above zero.
 */
export function converterDrag(stallTorque: number, idleSpeed: number, stallSpeed: number): number {
  const ratio = positive(idleSpeed, 'The idle speed') / positive(stallSpeed, 'The stall speed');
  return powerOfTorque(positive(stallTorque, 'The torque') * ratio ** 2, idleSpeed);
}
