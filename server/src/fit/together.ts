import type { Slot } from '../sheet/slots.ts';
import type { Steps } from '../text/steps.ts';
import { type Choice, choiceOf, type Sorted, sorted } from './choose.ts';
import type { Choosing } from './choosing.ts';
import { combine, type Search } from './combine.ts';
import { shownOf } from './front.ts';
import { bestOf, costOfPlacings, type Placing, type Shown } from './option.ts';

/** Slots whose parts act on one another: what the pump gives hangs on all that it works through and on its volts. */
const SUPPLY = new Set(['pump', 'suction', 'pre-filter', 'feed', 'filter', 'return', 'regulator', 'pump-circuit']);

/** Parts for several slots. */
export type Together = {
  /** Each slot by itself. */
  choices: readonly Choice[];
  /** The parts that are proposed, a slot each, and those for which nothing does it. */
  placings: readonly Placing[];
  /** Those of them that act on no others. */
  alone: readonly Placing[];
  without: readonly Slot[];
  cost: number | undefined;
  /** Ways to fit out the fuel supply, whose parts act on one another, and how they were looked for. */
  supply: readonly Shown[];
  search: Search;
};

/** Parts for every slot: those that act on one another together, the others each by itself, the cheapest that does it. */
export function* chooseTogether(choosing: Choosing, slots: readonly Slot[]): Steps<Together> {
  const group = slots.filter(({ name }) => SUPPLY.has(name));
  const all: Sorted[] = [];
  for (const slot of slots) all.push(yield* sorted(choosing, slot, group.includes(slot) ? group : [slot]));
  const choices: Choice[] = [];
  for (const one of all) choices.push(yield* choiceOf(choosing, one));
  const alone = choices
    .filter(({ slot }) => !group.includes(slot))
    .flatMap(({ options }) => options[0]?.placings ?? []);
  const { options, search } = yield* combine(
    choosing,
    all.filter(({ slot }) => group.includes(slot)),
  );
  const supply = shownOf(bestOf(options));
  const placings = [...alone, ...(supply[0]?.placings ?? [])];
  return {
    choices,
    placings,
    alone,
    without: slots.filter((slot) => !placings.some((one) => one.slot === slot)),
    cost: costOfPlacings(choosing.build.values, placings),
    supply,
    search,
  };
}
