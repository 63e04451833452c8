import type { Checked } from '../checking/checked.ts';
import type { Rule } from '../checking/rule.ts';
import { type Slot, slotAround } from '../sheet/slots.ts';
import type { Steps } from '../text/steps.ts';
import { choose } from './choose.ts';
import { Choosing } from './choosing.ts';
import { costOf, sumOf } from './cost.ts';

/** A part that a later stage outgrows: what it costs to buy the one that lasts now, and what to buy twice. */
export type Waiting = {
  slot: Slot;
  stage: string;
  present: string | undefined;
  /** The cheapest part that does it in every stage, bought now. */
  now: { id: string; cost: number | undefined } | undefined;
  /** The present part now and that one later. */
  later: number | undefined;
  /** How much more it costs to wait; nothing where a price is missing. */
  more: number | undefined;
};

/** Every part that a later stage outgrows, and what waiting costs over the plan. */
export type WaitingCost = { parts: readonly Waiting[]; now: number | undefined; later: number | undefined };

export const OUTGROWN = 'plan/part-outgrown';

/** What it costs to buy again later what could be bought at once, of the catalogs of the house. */
export function* costOfWaiting(checked: Checked, rules: readonly Rule[]): Steps<WaitingCost> {
  const outgrown = checked.findings.filter(({ rule }) => rule === OUTGROWN);
  const choosing = new Choosing(checked, rules);
  const parts: Waiting[] = [];
  const told = new Set<Slot>();
  for (const { path, stages } of outgrown) {
    const slot = slotAround(path);
    if (!slot || told.has(slot)) continue;
    told.add(slot);
    const choice = yield* choose(choosing, slot);
    const whole = choice.options.find(({ placings }) => placings.length === 1);
    const part = whole?.placings[0]?.part;
    const bought = checked.sheet.parts?.taken.find((one) => one.slot === slot && one.stage === undefined)?.part;
    const paid = bought && costOf(choosing.build.values, slot, bought);
    const later = sumOf([paid, whole?.cost]);
    parts.push({
      slot,
      stage: checked.plan[stages[0] ?? 0]?.name ?? '',
      present: bought?.id,
      now: part && { id: part.id, cost: whole?.cost },
      later: part ? later : undefined,
      more: part && later !== undefined ? paid : undefined,
    });
  }
  return { parts, now: sumOf(parts.map(({ now }) => now?.cost)), later: sumOf(parts.map(({ later }) => later)) };
}
