import { finite, notNegative, positive } from './bounds.ts';
import { staticHead } from './lines.ts';

/** Delivery above the demand that a pump should have, as a share of the demand. */
export const deliveryReserve = { value: 0.2, source: 'common practice, no source' } as const;

/**
 * Volume flow, m3/s, a pump must deliver for a fuel demand in kg/s of a fuel with the density in kg/m3:
 * demand / density * (1 + reserve). Source: definition; the reserve is common practice, see `deliveryReserve`.
 * @throws RangeError
 */
export function requiredDelivery(demand: number, density: number, reserve: number = deliveryReserve.value): number {
  const volume = notNegative(demand, 'The fuel demand') / positive(density, 'The density');
  return volume * (1 + notNegative(reserve, 'The reserve'));
}

/**
 * Gauge pressure, Pa, a pump must deliver at: regulator setting + reference (gauge pressure the regulator refers to: 0
 * for the atmosphere, boost for the manifold) + losses of feed line and filter, Pa, + head of the rise from pump to
 * rail, m, with the density in kg/m3. Source: pressure balance. @throws RangeError
 */
export function requiredPressure(supply: {
  setting: number;
  reference: number;
  feedLoss: number;
  filterLoss: number;
  rise: number;
  density: number;
}): number {
  return (
    positive(supply.setting, "The regulator's setting") +
    finite(supply.reference, 'The reference pressure') +
    notNegative(supply.feedLoss, 'The loss of the feed line') +
    notNegative(supply.filterLoss, 'The loss of the filter') +
    staticHead(supply.density, supply.rise)
  );
}
