import { SPECIFIC_HEAT } from './air.ts';
import { notNegative, positive, within } from './bounds.ts';
import { type Fuel, gasoline, stoichiometricRatio } from './fuels.ts';

/** What manifold, ports and valves add to the charge at full load, K, evaporating gasoline counted. */
export const chargeHeating = {
  value: 330 - 298.15,
  source: 'common practice: 25 degC air closes in at some 330 K',
} as const;

/** Share of a fuel's heat of evaporation that is taken from the charge before the valve closes. */
export const evaporatedShare = { value: 0.4, source: 'common practice, no source: the rest comes from walls' } as const;

/**
 * Fall, K, of the charge's temperature by a fuel evaporating in it: share * heat / (air/fuel ratio * cp), at a lambda.
 * Energy balance; see `evaporatedShare`. @throws RangeError unless lambda is above zero and the share from 0 to 1
 */
export function evaporationCooling(fuel: Fuel, lambda: number, share: number = evaporatedShare.value): number {
  within(share, 0, 1, 'The share that evaporates');
  return (share * fuel.latentHeat) / (positive(lambda, 'Lambda') * stoichiometricRatio(fuel) * SPECIFIC_HEAT);
}

/**
 * Temperature, K, of the charge at intake closing: that of the air in the manifold, K, and `chargeHeating`, less what the
 * fuel cools more than gasoline would at the same lambda, and what nitrous oxide cools, K. Energy balance, an estimate.
 * @throws RangeError for a quantity out of its range, or when nothing above 200 K is left
 */
export function chargeTemperature(of: { air: number; fuel: Fuel; lambda: number; nitrousCooling: number }): number {
  const more = evaporationCooling(of.fuel, of.lambda) - evaporationCooling(gasoline, of.lambda);
  const cooled = more + notNegative(of.nitrousCooling, 'The cooling by nitrous oxide');
  const temperature = positive(of.air, 'The air temperature') + chargeHeating.value - cooled;
  return within(temperature, 200, 600, 'The temperature of the charge in K');
}
