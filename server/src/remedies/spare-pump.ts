import { pumpDelivery, requiredDelivery } from '../analysis/supply.ts';
import type { Situation } from '../checking/rule.ts';

/** Whether the sheet has a spare pump, and all its pumps together would give what the engine needs. */
export function spareWouldDo({ values, see }: Pick<Situation, 'values' | 'see'>): boolean {
  const pump = values['fuel-system']?.pump;
  const count = pump?.quantity ?? 1;
  const [delivery, required] = [see(pumpDelivery), see(requiredDelivery)];
  if (pump?.arrangement !== 'spare' || count < 2 || !delivery || !required) return false;
  return delivery.value * count >= required.value;
}
