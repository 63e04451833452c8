import type { ShelfPart } from '../sheet/shelf.ts';
import type { Slot } from '../sheet/slots.ts';
import type { Steps } from '../text/steps.ts';
import { Judging } from './alike.ts';
import type { Sorted } from './choose.ts';
import type { Bench, Choosing } from './choosing.ts';
import { bestOf, type Option, type Placing } from './option.ts';
import { Refused } from './refused.ts';
import { valuesWith } from './slot-values.ts';

/** How combinations of parts were looked through: how many there are, how many were tried, and whether the others are known to be no better. */
export type Search = { combinations: number; tried: number; isWhole: boolean };

/** Most combinations that are gone through one after the other, and most that are tried in all. */
const MOST_IN_ALL = 20_000;
const MOST_TRIED = 1200;
/** Where there are more: most that the search begins with, and parts of a slot that are put into what was found. */
const MOST_BEGINNINGS = 160;
const MOST_CHANGED = 12;

/**
 * Parts for slots that act on one another, so that they are tried together. Every combination is tried, but those that hold
 * what refused another one: a rule that looked at two of the parts and found an error finds it with all others as well. Where
 * there are too many, it begins with the parts that do it best alone, and goes on from what it finds by one part at a time.
 */
export function* combine(choosing: Choosing, choices: readonly Sorted[]): Steps<{ options: Option[]; search: Search }> {
  const group = choices.map(({ slot }) => slot);
  if (group.length === 0) return { options: [], search: { combinations: 0, tried: 0, isWhole: true } };
  const trying = new Trying(choosing, group);
  const lists = choices.map((choice, index) => trying.candidates(choice, index));
  const combinations = choices.reduce((product, { fitting, fails }) => product * (fitting.length + fails.length), 1);
  const isSmall = lists.reduce((product, list) => product * list.length, 1) <= MOST_IN_ALL;
  const isWhole = isSmall && (yield* trying.all(lists, MOST_TRIED));
  if (!isWhole) {
    const best = choices.map((choice, index) => bestAlone(choice, lists[index] ?? []));
    const most = Math.max(2, Math.floor(MOST_BEGINNINGS ** (1 / group.length)));
    yield* trying.all(
      best.map((list) => list.slice(0, most)),
      MOST_TRIED,
    );
    yield* trying.onePartAtATime(best.map((list) => list.slice(0, MOST_CHANGED)));
  }
  return { options: trying.options, search: { combinations, tried: trying.tried, isWhole } };
}

/** The parts of a slot, those that do it alone first, of these the ones no other beats. */
function bestAlone({ fitting }: Sorted, parts: readonly ShelfPart[]): ShelfPart[] {
  const partOf = ({ placings }: Option) => placings[0]?.part as ShelfPart;
  const front = bestOf(fitting).map(partOf);
  const others = fitting
    .toSorted((one, other) => (one.cost ?? Number.POSITIVE_INFINITY) - (other.cost ?? Number.POSITIVE_INFINITY))
    .map(partOf);
  const order = [...new Set([...front, ...others])].filter((part) => parts.includes(part));
  return order.length > 0 ? order : [...parts];
}

/** Combinations of parts as they are tried, each once. */
class Trying {
  readonly options: Option[] = [];
  tried = 0;
  private readonly bench: Bench;
  private readonly judging: Judging;
  private readonly seen = new Set<string>();
  private readonly refused: Refused;

  constructor(
    private readonly choosing: Choosing,
    private readonly group: readonly Slot[],
  ) {
    this.bench = choosing.without(group);
    this.judging = new Judging(this.bench);
    this.refused = new Refused(group.length);
  }

  /** The parts of a slot but for those that are refused whatever stands beside them. */
  candidates({ slot, fails }: Sorted, index: number): ShelfPart[] {
    const refused = fails.filter(
      ({ refusal }) => refusal.stands === 1 << index && this.bench.newIn([refusal.error]).length > 0,
    );
    const gone = new Set(refused.map(({ part }) => part));
    return this.choosing.candidates(slot).filter((part) => !gone.has(part));
  }

  /** Tries every combination of some lists of parts, a list a slot; whether it came to the end. */
  *all(lists: readonly (readonly ShelfPart[])[], most: number, chosen: readonly ShelfPart[] = []): Steps<boolean> {
    const list = lists[chosen.length];
    if (!list) {
      if (this.tried >= most || (yield)) return false;
      this.attempt(chosen);
      return true;
    }
    for (const part of list) {
      const next = [...chosen, part];
      if (!this.refused.holds(next) && !(yield* this.all(lists, most, next))) return false;
    }
    return true;
  }

  /** From each of the best found so far every combination with one other part, as long as that finds better ones. */
  *onePartAtATime(lists: readonly (readonly ShelfPart[])[]): Steps<void> {
    const done = new Set<Option>();
    for (;;) {
      const from = bestOf(this.options).find((option) => !done.has(option));
      if (!from) return;
      done.add(from);
      const parts = from.placings.map(({ part }) => part);
      for (const [index, list] of lists.entries()) {
        for (const part of list) {
          if (this.tried >= MOST_TRIED || (yield)) return;
          this.attempt(parts.with(index, part));
        }
      }
    }
  }

  private attempt(parts: readonly ShelfPart[]): void {
    const key = parts.map(({ id }) => id).join(' ');
    if (this.seen.has(key)) return;
    this.seen.add(key);
    if (this.refused.holdsAny(parts)) return;
    this.tried++;
    const { group, bench } = this;
    const placings = parts.map((part, index): Placing => ({ slot: group[index] as Slot, part }));
    const judged = this.judging.judge(placings, () =>
      placings.reduce((filled, { slot, part }) => valuesWith(filled, slot, part), bench.empty.values),
    );
    if ('refusal' in judged) this.refused.add(judged.refusal.stands, parts);
    else this.options.push(judged.option);
  }
}
