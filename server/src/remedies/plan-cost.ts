import type { BuildSheet } from '../generated/build-sheet.ts';
import { valueAt } from '../sheet/path.ts';
import { piecesOf, slots } from '../sheet/slots.ts';

type Sections = Partial<BuildSheet> | NonNullable<BuildSheet['stages']>[number]['changes'];
type Planned = { changes?: Sections; cost?: number };

/** What the parts of a build cost as far as they say a price: those of the first stage, and those of the whole plan. */
export type PlanCost = { now: number; all: number };

/** @param values the sheet as it is in its first stage @param later the stages after it */
export function planCost(values: Sections, later: readonly Planned[]): PlanCost {
  const now = costIn(values);
  const steps = later.map(({ changes, cost }) => costIn(changes) || (cost ?? 0));
  return { now, all: steps.reduce((sum, step) => sum + step, now) };
}

/** The price of every part times how many there are of it; a part without a price counts nothing. */
function costIn(sections: Sections): number {
  const bodies = numberAt(sections, ['throttle-body', 'quantity']) ?? 1;
  return slots.reduce((sum, slot) => {
    const cost = numberAt(sections, [...slot.path, 'cost']);
    return cost === undefined ? sum : sum + cost * piecesOf(slot, valueAt(sections, slot.path), bodies);
  }, 0);
}

function numberAt(sections: Sections, path: readonly string[]): number | undefined {
  const value = valueAt(sections, path);
  return typeof value === 'number' ? value : undefined;
}
