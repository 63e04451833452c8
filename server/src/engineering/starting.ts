import { airDensity } from './air.ts';
import { positive } from './bounds.ts';

/**
 * What an engine is given to start and warm up with, by coolant temperature, K: fuel over stoichiometric while cranking,
 * just after it has fired with the seconds over which that fades, and while it warms up. For gasoline; see `alcoholExcess`.
 * Common practice, from memory.
 */
export const coldFuel = [
  { coolant: 253.15, cranking: 4.5, fired: 1.9, fades: 40, warming: 1.6 },
  { coolant: 273.15, cranking: 3, fired: 1.65, fades: 30, warming: 1.4 },
  { coolant: 293.15, cranking: 2, fired: 1.45, fades: 20, warming: 1.25 },
  { coolant: 313.15, cranking: 1.5, fired: 1.3, fades: 15, warming: 1.12 },
  { coolant: 333.15, cranking: 1.25, fired: 1.2, fades: 10, warming: 1.05 },
  { coolant: 353.15, cranking: 1.1, fired: 1.1, fades: 5, warming: 1 },
] as const;

/** How many times the excess of gasoline a fuel of mostly alcohol wants below 20 degC. Common practice, from memory. */
export const alcoholExcess = 2;

/** Speed while the starter turns the engine, rev/s, and how full the cylinders get. Common practice, from memory. */
export const CRANKING = { speed: 200 / 60, efficiency: 0.8 } as const;

/**
 * Fuel of one cycle of all cylinders while cranking, kg: air by displacement (m3) at ambient pressure (Pa) and temperature
 * (K) with `CRANKING.efficiency`, over the stoichiometric ratio, times the factor of `coldFuel`. Source: Heywood eq. 2.27
 * and 3.9, from memory. @throws RangeError unless all are above zero
 */
export function crankingFuel(of: {
  displacement: number;
  pressure: number;
  temperature: number;
  stoichiometric: number;
  factor: number;
}): number {
  const air =
    CRANKING.efficiency * positive(of.displacement, 'The displacement') * airDensity(of.pressure, of.temperature);
  return (air / positive(of.stoichiometric, 'The stoichiometric ratio')) * positive(of.factor, 'The factor');
}
