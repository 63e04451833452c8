import type { Checked } from '../checking/checked.ts';
import type { Finding } from '../checking/finding.ts';
import type { Rule } from '../checking/rule.ts';
import { isInSlot, type Slot, slotAround } from '../sheet/slots.ts';
import type { Taken } from '../sheet/take-over.ts';
import type { Steps } from '../text/steps.ts';
import { choose } from './choose.ts';
import { Choosing } from './choosing.ts';
import { costOf, sumOf } from './cost.ts';

/** A part and what it costs in its slot. */
export type Bought = { id: string; cost: number | undefined };

/** A part that a later stage outgrows: what it costs to buy the one that lasts now, and what to buy twice. */
export type Waiting = {
  slot: Slot;
  stage: string;
  present: string | undefined;
  /** The cheapest part that does it in every stage, bought now. */
  now: Bought | undefined;
  /** The cheapest part that mends it in the later stage: the same one, or one within the present part. */
  again: Bought | undefined;
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
  const choosing = new Choosing(checked, rules);
  const parts: Waiting[] = [];
  for (const [slot, { present, places, stage }] of outgrownIn(checked)) {
    const now = yield* cheapest(choosing, slot);
    const [inner, ...others] = places;
    const within = inner && inner !== slot && others.length === 0 ? yield* cheapest(choosing, inner) : undefined;
    const again = cheaper(now, within);
    const later = again && sumOf([present && costOf(choosing.build.values, slot, present), again.cost]);
    const more = later === undefined || now?.cost === undefined ? undefined : later - now.cost;
    parts.push({ slot, stage, present: present?.id, now, again, later, more });
  }
  return { parts, now: sumOf(parts.map(({ now }) => now?.cost)), later: sumOf(parts.map(({ later }) => later)) };
}

/** What is outgrown of a part that was bought: the slots that findings are about, and the first stage that does it. */
type Outgrown = { present: Taken['part']; places: Slot[]; stage: string };

/** By the slots of the parts that were bought: injectors that came with a throttle body are a matter of the throttle body. */
function outgrownIn({ findings, sheet, plan }: Checked): Map<Slot, Outgrown> {
  const bought = (sheet.parts?.taken ?? []).filter(({ stage }) => stage === undefined);
  const found = new Map<Slot, Outgrown>();
  for (const { path, stages } of findings.filter(({ rule }: Finding) => rule === OUTGROWN)) {
    const inner = slotAround(path);
    if (!inner) continue;
    const holder =
      bought.find(({ slot }) => slot === inner) ??
      bought.find(
        ({ slot, part }) => isInSlot(inner.path, slot) && part?.fields[inner.path.at(-1) ?? ''] !== undefined,
      );
    const slot = holder?.slot ?? inner;
    const known = found.get(slot) ?? { present: holder?.part, places: [], stage: plan[stages[0] ?? 0]?.name ?? '' };
    if (!known.places.includes(inner)) known.places.push(inner);
    found.set(slot, known);
  }
  return found;
}

/** The cheapest single part of the catalogs that does it in every stage. */
function* cheapest(choosing: Choosing, slot: Slot): Steps<Bought | undefined> {
  const { options } = yield* choose(choosing, slot);
  const whole = options.find(({ placings }) => placings.length === 1);
  const part = whole?.placings[0]?.part;
  return part && { id: part.id, cost: whole?.cost };
}

function cheaper(one: Bought | undefined, other: Bought | undefined): Bought | undefined {
  const priceOf = (bought: Bought | undefined) => bought?.cost ?? Number.POSITIVE_INFINITY;
  return priceOf(other) < priceOf(one) ? other : one;
}
