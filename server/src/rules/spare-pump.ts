import type { Situation } from './rule.ts';

/** Whether the sheet has a spare pump, and all its pumps together would give what the engine needs. */
export function spareWouldDo({ values, figure }: Pick<Situation, 'values' | 'figure'>): boolean {
  const pump = values['fuel-system']?.pump;
  const count = pump?.quantity ?? 1;
  const [delivery, required] = [figure('pump-delivery'), figure('required-delivery')];
  if (pump?.arrangement !== 'spare' || count < 2 || !delivery || !required) return false;
  return delivery.value * count >= required.value;
}
