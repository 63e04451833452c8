import type { ShelfPart } from '../sheet/shelf.ts';
import type { Slot } from '../sheet/slots.ts';
import type { Steps } from '../text/steps.ts';
import {
  type Choice,
  type Choosing,
  choose,
  leastDoubted,
  newErrors,
  type Option,
  optionOf,
  type Placing,
  type Shown,
  type Trial,
} from './choose.ts';
import { costOf, sumOf } from './cost.ts';
import { frontOf, shownOf } from './front.ts';
import { valuesWith } from './slot-values.ts';

/** Slots whose parts act on one another: what the pump gives hangs on all that it works through and on its volts. */
const SUPPLY = new Set(['pump', 'suction', 'pre-filter', 'feed', 'filter', 'return', 'regulator', 'pump-circuit']);

/** Most combinations that are tried. */
const MOST_COMBINED = 240;

/** Parts for several slots. */
export type Together = {
  /** Each slot by itself. */
  choices: readonly Choice[];
  /** The parts that are proposed, a slot each, and those for which nothing does it. */
  placings: readonly Placing[];
  without: readonly Slot[];
  cost: number | undefined;
  /** Ways to fit out the fuel supply, whose parts act on one another. */
  supply: readonly Shown[];
  combined: number;
};

/** Parts for every slot: those that act on one another together, the others each by itself, the cheapest that does it. */
export function* chooseTogether(choosing: Choosing, slots: readonly Slot[]): Steps<Together> {
  const group = slots.filter(({ name }) => SUPPLY.has(name));
  const choices: Choice[] = [];
  for (const slot of slots) choices.push(yield* choose(choosing, slot));
  const alone = choices
    .filter(({ slot }) => !group.includes(slot))
    .flatMap(({ options }) => options[0]?.placings ?? []);
  const { options, combined } = yield* combinations(choosing, group, choices);
  const supply = shownOf(frontOf(leastDoubted(options)));
  const placings = [...alone, ...(supply[0]?.placings ?? [])];
  const { values } = choosing.build;
  return {
    choices,
    placings,
    without: slots.filter((slot) => !placings.some((one) => one.slot === slot)),
    cost: sumOf(placings.map(({ slot, part }) => costOf(values, slot, part))),
    supply,
    combined,
  };
}

/** All combinations of parts for some slots that bring no new error; where they are too many, of the cheapest that fit alone. */
function* combinations(
  choosing: Choosing,
  group: readonly Slot[],
  choices: readonly Choice[],
): Steps<{ options: Option[]; combined: number }> {
  if (group.length === 0) return { options: [], combined: 0 };
  const emptyValues = group.reduce((values, slot) => valuesWith(values, slot, undefined), choosing.build.values);
  const empty = choosing.trial(emptyValues, undefined);
  const lists = group.map((slot) => candidatesOf(choosing, slot, choices, group.length));
  const options: Option[] = [];
  let combined = 0;
  for (const parts of productOf(lists)) {
    if (yield) break;
    combined++;
    const placings = parts.map((part, index): Placing => ({ slot: group[index] as Slot, part }));
    const trial = trialOf(choosing, placings, emptyValues, empty);
    if (newErrors(empty.errors, trial.errors).length === 0) options.push(optionOf(empty, trial, placings));
  }
  return { options, combined };
}

function trialOf(choosing: Choosing, placings: readonly Placing[], values: Trial['values'], empty: Trial): Trial {
  return choosing.trial(
    placings.reduce((filled, { slot, part }) => valuesWith(filled, slot, part), values),
    empty,
  );
}

function candidatesOf(choosing: Choosing, slot: Slot, choices: readonly Choice[], slots: number): readonly ShelfPart[] {
  const all = choosing.candidates(slot);
  const most = Math.max(2, Math.floor(MOST_COMBINED ** (1 / slots)));
  if (all.length <= most) return all;
  const alone = choices.find((choice) => choice.slot === slot)?.options ?? [];
  const fitting = alone.flatMap(({ placings }) => (placings.length === 1 ? placings.map(({ part }) => part) : []));
  return fitting.slice(0, most);
}

function* productOf(lists: readonly (readonly ShelfPart[])[], from = 0): Generator<ShelfPart[]> {
  const list = lists[from];
  if (!list) {
    yield [];
    return;
  }
  for (const part of list) for (const others of productOf(lists, from + 1)) yield [part, ...others];
}
