import type { Checked } from '../checking/checked.ts';
import type { Rule } from '../checking/rule.ts';
import type { HosePlan } from '../sheet/hose.ts';
import type { Slot } from '../sheet/slots.ts';
import type { Steps } from '../text/steps.ts';
import { type Choice, choose } from './choose.ts';
import { Choosing } from './choosing.ts';
import { hoseFor } from './cost.ts';
import { openSlots } from './open-slots.ts';
import type { Placing } from './option.ts';
import { chooseTogether, type Together } from './together.ts';
import { costOfWaiting, type WaitingCost } from './waiting.ts';

/** Hose that is bought for runs of one part. */
export type BoughtHose = HosePlan & { id: string; runs: number };

/** What the catalogs have for a sheet: for one slot, or for all that are open. */
export type Fit = { waiting: WaitingCost; hasCatalog: boolean } & (
  | { choice: Choice }
  | { together: Together; hoses: readonly BoughtHose[] }
);

/** Parts of the catalogs for a slot of a sheet, or for every open one, and what waiting costs. */
export function* fitOf(checked: Checked, rules: readonly Rule[], slot?: Slot): Steps<Fit> {
  const choosing = new Choosing(checked, rules);
  const waiting = yield* costOfWaiting(checked, rules);
  const hasCatalog = checked.house.shelf?.isEmpty === false;
  if (slot) return { choice: yield* choose(choosing, slot), waiting, hasCatalog };
  const together = yield* chooseTogether(choosing, openSlots(choosing));
  return { together, hoses: hosesOf(choosing, together.placings), waiting, hasCatalog };
}

/** For each hose what is bought of it for all its runs together. */
function hosesOf(choosing: Choosing, placings: readonly Placing[]): BoughtHose[] {
  const lines = placings.filter(({ part }) => part.kind === 'line');
  const parts = new Map(lines.map(({ part }) => [part.id, part]));
  return [...parts.values()].flatMap((part) => {
    const runs = lines.filter((one) => one.part === part).map(({ slot }) => slot);
    const plan = hoseFor(choosing.build.values, part, runs);
    return plan ? [{ ...plan, id: part.id, runs: runs.length }] : [];
  });
}
