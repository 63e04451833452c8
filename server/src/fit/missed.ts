import type { Finding } from '../checking/finding.ts';
import { changedValues } from '../sheet/changed.ts';
import type { ShelfPart } from '../sheet/shelf.ts';
import { isInSlot, type Slot } from '../sheet/slots.ts';
import type { Steps } from '../text/steps.ts';
import type { Bench, Choosing, Refusal, Trial } from './choosing.ts';
import { leastMargin } from './option.ts';
import { fittedAt, valuesWith } from './slot-values.ts';

/** A part that does not fit: what it would break, in which stages, and what would make it fit. */
export type Missed = {
  part: ShelfPart;
  rule: string;
  reason: string;
  stages: readonly string[];
  /** Where it is among the nearest: the least margin, how many rules refuse it, and what would make it fit. */
  margin: number | undefined;
  errors: number | undefined;
  ways: readonly string[];
};

/** A part that was refused. */
export type Fail = { part: ShelfPart; refusal: Refusal };

/** A part that was refused, with all that is found with it. */
type Whole = Fail & { trial: Trial; errors: readonly Finding[] };

/** Of what each rule refuses, how many that miss its limit least are looked at as a whole. */
const MOST_NEAR = 8;
/** Most parts that miss whose ways are tried, and most ways of each. */
const MOST_MENDED = 5;
const MOST_WAYS = 4;

/** The parts that do not fit, the nearest first, with the reason of each. */
export function* missedOf(choosing: Choosing, bench: Bench, slot: Slot, fails: readonly Fail[]): Steps<Missed[]> {
  const near = nearest(fails);
  const whole: Whole[] = [];
  for (const fail of near) {
    if (yield) break;
    const trial = bench.trial(valuesWith(choosing.build.values, slot, fail.part));
    whole.push({ ...fail, trial, errors: bench.newIn(trial.errors) });
  }
  const looked = whole
    .map((one) => ({ ...one, margin: leastMargin(bench.empty.plan, one.trial.plan), count: countOf(one.errors) }))
    .toSorted((one, other) => one.count - other.count || (other.margin ?? -9) - (one.margin ?? -9));
  const seen = new Set(looked.map(({ part }) => part));
  const rest = fails.filter(({ part }) => !seen.has(part)).toSorted(byExcess);
  return [
    ...looked.map(({ part, errors, trial, margin, count }, index) => ({
      ...told(choosing, part, errors.find(({ path }) => isInSlot(path, slot)) ?? errors[0]),
      margin,
      errors: count,
      ways: index < MOST_MENDED ? waysFor(choosing, bench, slot, errors, trial) : [],
    })),
    ...rest.map(({ part, refusal }) => ({
      ...told(choosing, part, refusal.error),
      margin: undefined,
      errors: undefined,
      ways: [],
    })),
  ];
}

function countOf(errors: readonly Finding[]): number {
  return new Set(errors.map(({ found }) => found)).size;
}

function byExcess(one: Fail, other: Fail): number {
  return (one.refusal.error.excess ?? 0) - (other.refusal.error.excess ?? 0);
}

/** Of the parts that each rule refuses, those that miss least. */
function nearest(fails: readonly Fail[]): Fail[] {
  const byRule = new Map<string, Fail[]>();
  for (const fail of fails) byRule.set(fail.refusal.rule.id, [...(byRule.get(fail.refusal.rule.id) ?? []), fail]);
  return [...byRule.values()].flatMap((all) => all.toSorted(byExcess).slice(0, MOST_NEAR));
}

function told({ build }: Choosing, part: ShelfPart, error: Finding | undefined) {
  const stages = (error?.stages ?? []).map((stage) => build.plan[stage]?.name ?? String(stage + 1));
  return { part, rule: error?.found ?? '', reason: error?.message ?? '', stages };
}

/** What the rules offer that is about something else than the part, and with which the part fits. */
function waysFor(choosing: Choosing, bench: Bench, slot: Slot, errors: readonly Finding[], trial: Trial): string[] {
  const fitted = fittedAt(choosing.build.values, slot);
  const isOfPart = (path: readonly (string | number)[]) => {
    const steps = path.filter((step) => typeof step === 'string');
    const at = steps.join('.').indexOf(slot.field);
    return at >= 0 && !(String(path.at(-1)) in fitted);
  };
  const repairs = errors.flatMap((error) => error.repairs).slice(0, MOST_WAYS * 2);
  const ways = repairs.flatMap(({ title, changes }) => {
    if (changes.some((change) => isOfPart('set' in change ? change.set : change.remove))) return [];
    const values = changedValues(trial.values, changes);
    if (!values) return [];
    return bench.newIn(bench.wholeTrial(values).errors).length === 0 ? [title] : [];
  });
  return [...new Set(ways)].slice(0, MOST_WAYS);
}
