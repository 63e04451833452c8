import type { Finding } from '../checking/finding.ts';
import type { ShelfPart } from '../sheet/shelf.ts';
import type { Slot } from '../sheet/slots.ts';
import type { Steps } from '../text/steps.ts';
import { Judging } from './alike.ts';
import type { Bench, Choosing } from './choosing.ts';
import { costOf } from './cost.ts';
import { type Fail, type Missed, missedOf } from './missed.ts';
import { type Option, optionOf, type Shown, shownWithRest } from './option.ts';
import { valuesWith, valuesWithLater } from './slot-values.ts';

/** What the catalogs have for a slot. */
export type Choice = {
  slot: Slot;
  present: string | undefined;
  options: readonly Shown[];
  /** Parts that do it as well, and are beaten in nothing but what they are not better at. */
  alsoFit: number;
  missed: readonly Missed[];
  tried: number;
  /** Parts that time was up for. */
  untried: number;
};

/** Every part of the catalogs for a slot: those that do it, and those that do not, with what refused them. */
export type Sorted = {
  slot: Slot;
  bench: Bench;
  fitting: readonly Option[];
  fails: readonly Fail[];
  untried: number;
};

/** Parts on either side of a later stage that are tried together. */
const MOST_SPLIT = 4;

/** The parts that do it in a slot, and why the others do not. */
export function* choose(choosing: Choosing, slot: Slot): Steps<Choice> {
  return yield* choiceOf(choosing, yield* sorted(choosing, slot));
}

/** Tries every part for a slot; `group`: slots of which it is told whether a refusal stands on them. */
export function* sorted(choosing: Choosing, slot: Slot, group: readonly Slot[] = [slot]): Steps<Sorted> {
  const parts = choosing.candidates(slot);
  const bench = choosing.without([slot], group);
  const fitting: Option[] = [];
  const fails: Fail[] = [];
  const judging = new Judging(bench);
  for (const part of parts) {
    if (yield) break;
    const judged = judging.judge([{ slot, part }], () => valuesWith(choosing.build.values, slot, part));
    if ('refusal' in judged) fails.push({ part, refusal: judged.refusal });
    else fitting.push(judged.option);
  }
  const untried = parts.length - fitting.length - fails.length;
  return { slot, bench, fitting, fails, untried };
}

/** What is told of the parts for a slot. */
export function* choiceOf(choosing: Choosing, { slot, bench, fitting, fails, untried }: Sorted): Steps<Choice> {
  const whole = Math.min(...fitting.map(({ cost }) => cost ?? Number.POSITIVE_INFINITY));
  const options = [...fitting, ...(yield* splits(choosing, bench, slot, fails, whole))];
  const { taken = [] } = choosing.checked.sheet.parts ?? {};
  return {
    slot,
    present: taken.find((one) => one.slot === slot && one.stage === undefined)?.id,
    ...shownWithRest(options),
    missed: yield* missedOf(choosing, bench, slot, fails),
    tried: fitting.length + fails.length,
    untried,
  };
}

/**
 * One part up to a stage and another from it on, where the two cost less than any one that does it in all stages. Of the
 * parts that do it on either side the cheapest are tried together.
 */
function* splits(choosing: Choosing, bench: Bench, slot: Slot, fails: readonly Fail[], whole: number): Steps<Option[]> {
  const { values, plan } = choosing.build;
  if (plan.length < 2) return [];
  const priceOf = ({ part }: Fail) => costOf(values, slot, part) ?? Number.POSITIVE_INFINITY;
  const isDear = (price: number) => Number.isFinite(whole) && price >= whole;
  const cheap = fails.filter((fail) => !isDear(priceOf(fail))).toSorted((one, other) => priceOf(one) - priceOf(other));
  const errors = new Map<Fail, readonly Finding[]>();
  const errorsOf = (fail: Fail) => {
    const known = errors.get(fail) ?? bench.newIn(bench.trial(valuesWith(values, slot, fail.part)).errors);
    errors.set(fail, known);
    return known;
  };
  const isOutside = ({ stages }: Finding, from: number, to: number) =>
    stages.length > 0 && stages.every((stage) => stage < from || stage >= to);
  const fits = (fail: Fail, from: number, to: number) =>
    isOutside(fail.refusal.error, from, to) && errorsOf(fail).every((error) => isOutside(error, from, to));
  const found: Option[] = [];
  for (let from = 1; from < plan.length; from++) {
    const early = first(cheap, MOST_SPLIT, (fail) => fits(fail, 0, from));
    const late = first(cheap, MOST_SPLIT, (fail) => fits(fail, from, plan.length));
    for (const now of early) {
      for (const later of late) {
        if (yield) return found;
        if (isDear(priceOf(now) + priceOf(later))) continue;
        found.push(...split(choosing, bench, slot, now.part, later.part, from));
      }
    }
  }
  return found;
}

function split(choosing: Choosing, bench: Bench, slot: Slot, now: ShelfPart, later: ShelfPart, from: number): Option[] {
  const trial = bench.wholeTrial(valuesWithLater(choosing.build.values, slot, now, later, from));
  if (bench.newIn(trial.errors).length > 0) return [];
  const placings = [
    { slot, part: now },
    { slot, part: later, from },
  ];
  return [optionOf(bench.empty, trial, placings)];
}

function first<One>(all: readonly One[], most: number, is: (one: One) => boolean): One[] {
  const found: One[] = [];
  for (const one of all) {
    if (found.length === most) break;
    if (is(one)) found.push(one);
  }
  return found;
}
