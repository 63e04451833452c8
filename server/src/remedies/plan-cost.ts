import type { BuildSheet, Stage } from '../generated/build-sheet.ts';
import { valueAt } from '../sheet/path.ts';
import { piecesOf, type Slot, slots } from '../sheet/slots.ts';

type Values = Partial<BuildSheet>;

/** What a build costs as far as it says a price: its first stage, and the whole plan. */
export type PlanCost = { now: number; all: number };

/**
 * The parts that say a price, and what stages say they cost beside these.
 * @param plan the stages in order, each with the sheet as it is there
 */
export function planCost(plan: readonly { values: Values; stage: Stage }[]): PlanCost {
  const [now = 0, ...later] = plan.map(({ values, stage }, index) => {
    const said = index === 0 ? values : stage.changes;
    const parts = slots.map((slot) => costSaid(valueAt(said, slot.path), slot, values) ?? 0);
    return sum([...parts, stage.nitrous?.cost ?? 0, stage.cost ?? 0]);
  });
  return { now, all: sum([now, ...later]) };
}

/** The price that a section says, for all pieces that the build has of the part in its slot; nothing where it says none. */
export function costSaid(section: unknown, slot: Slot | undefined, values: Values): number | undefined {
  const cost = valueAt(section, ['cost']);
  if (typeof cost !== 'number') return undefined;
  return slot ? cost * piecesOf(slot, values) : cost;
}

function sum(costs: readonly number[]): number {
  return costs.reduce((total, cost) => total + cost, 0);
}
