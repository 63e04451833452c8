import { analyze, type StageAnalysis } from '../analysis/analysis.ts';
import { isKnown } from '../analysis/figure.ts';
import { figureNamed } from '../analysis/figures.ts';
import { heldAgainst } from '../analysis/headlines.ts';
import { limit } from '../analysis/node.ts';
import type { Checked } from '../checking/checked.ts';
import type { Finding } from '../checking/finding.ts';
import { identities } from '../checking/identity.ts';
import { judge, mayBeError, type Verdict } from '../checking/judge.ts';
import type { Rule } from '../checking/rule.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { changedValues } from '../sheet/changed.ts';
import { entryOf } from '../sheet/read.ts';
import type { ShelfPart } from '../sheet/shelf.ts';
import { isInSlot, type Slot, slots } from '../sheet/slots.ts';
import type { Steps } from '../text/steps.ts';
import type { Build } from './build.ts';
import { completed } from './completed.ts';
import { costOf, sumOf } from './cost.ts';
import { type BestAt, frontOf, type Measures, shownOf } from './front.ts';
import { fittedAt, valuesWith, valuesWithLater } from './slot-values.ts';
import { wishesMet } from './wishes.ts';

/** A part in its slot, from the first stage on or from a later one. */
export type Placing = { slot: Slot; part: ShelfPart; from?: number };

/** Parts that bring no new error in any stage, day or end of a tolerance. */
export type Option = Measures & {
  placings: readonly Placing[];
  met: readonly string[];
  /** Warnings that come with them. */
  warnings: readonly string[];
  /** How many of these are about the parts themselves. */
  doubts: number;
};

export type Shown = Option & { bestAt: readonly BestAt[] };

/** A part that does not fit: what it would break, in which stages, and what would make it fit. */
export type Missed = {
  part: ShelfPart;
  rule: string;
  reason: string;
  stages: readonly string[];
  margin: number | undefined;
  errors: number;
  ways: readonly string[];
};

/** What the catalogs have for a slot. */
export type Choice = {
  slot: Slot;
  present: string | undefined;
  options: readonly Shown[];
  /** Parts that do it as well, and are beaten in nothing but what they are not better at. */
  alsoFit: number;
  missed: readonly Missed[];
  tried: number;
};

type Values = Partial<BuildSheet>;
export type Trial = { values: Values; plan: readonly StageAnalysis[]; verdict: Verdict; errors: readonly Finding[] };

/** Most parts that miss whose ways are tried, and most ways of each. */
const MOST_MENDED = 5;
const MOST_WAYS = 4;
/** Parts on either side of a later stage that are tried together. */
const MOST_SPLIT = 4;

/** A sheet with usual values where it says nothing, in which parts are tried. */
export class Choosing {
  readonly build: Build;
  private readonly grave: readonly Rule[];

  constructor(
    readonly checked: Checked,
    rules: readonly Rule[],
  ) {
    this.build = completed(checked);
    this.grave = rules.filter((rule) => mayBeError(rule, checked.house) || rule.severity === 'warning');
  }

  /** The parts of the catalogs for a slot. */
  candidates({ kind }: Slot): readonly ShelfPart[] {
    return this.build.house.shelf?.ofKind(kind) ?? [];
  }

  trial(values: Values, before: Trial | undefined): Trial {
    const { house, unread, assumed, plan } = this.build;
    const after = analyze(values, house, before?.plan ?? plan, unread, assumed);
    const verdict = judge(values, after, house, before?.verdict, this.grave);
    const errors = verdict.findings.filter(({ severity }) => severity === 'error');
    return { values, plan: after, verdict, errors };
  }

  empty(slot: Slot): Trial {
    return this.trial(valuesWith(this.build.values, slot, undefined), undefined);
  }
}

/** Errors that were not there before, each in the stages in which it is new. */
export function newErrors(before: readonly Finding[], after: readonly Finding[]): Finding[] {
  const known = new Set(before.flatMap(identities));
  return after.flatMap((finding) => {
    if (finding.stages.length === 0) return identities(finding).some((one) => !known.has(one)) ? [finding] : [];
    const stages = finding.stages.filter((stage) =>
      identities({ ...finding, stages: [stage] }).some((one) => !known.has(one)),
    );
    return stages.length > 0 ? [{ ...finding, stages }] : [];
  });
}

/** The parts that do it in a slot, and why the others do not. */
export function* choose(choosing: Choosing, slot: Slot): Steps<Choice> {
  const { build, checked } = choosing;
  const parts = choosing.candidates(slot);
  const empty = choosing.empty(slot);
  const options: Option[] = [];
  const fails: { part: ShelfPart; trial: Trial; errors: readonly Finding[] }[] = [];
  let tried = 0;
  for (const part of parts) {
    if (yield) break;
    tried++;
    const trial = choosing.trial(valuesWith(build.values, slot, part), empty);
    const errors = newErrors(empty.errors, trial.errors);
    if (errors.length > 0) fails.push({ part, trial, errors });
    else options.push(optionOf(empty, trial, [{ slot, part }]));
  }
  if (options.length === 0) options.push(...splits(choosing, slot, empty, fails));
  const front = frontOf(leastDoubted(options));
  const missed = fails
    .map(({ part, trial, errors }) => missedOf(choosing, slot, empty, part, trial, errors))
    .toSorted((one, other) => one.errors - other.errors || (other.margin ?? -9) - (one.margin ?? -9));
  const present = checked.sheet.parts?.taken.find((taken) => taken.slot === slot && taken.stage === undefined)?.id;
  return {
    slot,
    present,
    options: shownOf(front),
    alsoFit: options.length - Math.min(front.length, shownOf(front).length),
    missed: missed.map((one, index) =>
      index < MOST_MENDED ? { ...one, ways: waysFor(choosing, slot, empty, fails, one.part) } : one,
    ),
    tried,
  };
}

/** Parts in their slots with all they are measured by. */
export function optionOf(empty: Trial, trial: Trial, placings: readonly Placing[]): Option {
  const { values } = trial;
  const cost = sumOf(placings.map(({ slot, part }) => costOf(values, slot, part)));
  const names = placings.map(({ slot }) => slot.name);
  const met = wishesMet(values, cost, names);
  const known = new Set(empty.verdict.findings.flatMap(identities));
  const warned = trial.verdict.findings.filter(
    (finding) => finding.severity === 'warning' && identities(finding).some((one) => !known.has(one)),
  );
  return {
    placings,
    cost,
    margin: leastMargin(empty.plan, trial.plan),
    changed: placings.length,
    wishes: met.length,
    met,
    warnings: [...new Set(warned.map(({ message }) => message))],
    doubts: warned.filter(({ path }) => placings.some(({ slot }) => isInSlot(path, slot))).length,
  };
}

/** Those about which the rules doubt least: a part that earns a warning yields to those that earn none. */
export function leastDoubted<One extends { doubts: number }>(options: readonly One[]): One[] {
  const least = Math.min(...options.map(({ doubts }) => doubts));
  return options.filter(({ doubts }) => doubts === least);
}

/** The least share by which a figure that stands on the parts keeps clear of its limit, over all stages and bad ends. */
function leastMargin(before: readonly StageAnalysis[], after: readonly StageAnalysis[]): number | undefined {
  const margins = after.flatMap((stage, index) =>
    Object.entries(heldAgainst).flatMap(([id, { side, limit: held }]) => {
      const node = figureNamed(id);
      const now = node && stage.see(node);
      const was = node && before[index]?.see(node);
      if (!node || !now || !isKnown(now) || (was && isKnown(was) && was.value === now.value)) return [];
      const bound = typeof held === 'number' ? held : stage.know(limit(held));
      const bounds = stage.boundsOf(node);
      if (bound === undefined) return [];
      if (side === 'at most') return [(bound - (bounds?.high ?? now.value)) / bound];
      const low = bounds?.low ?? now.value;
      if (bound > 0) return [low / bound - 1];
      return node.dimension.startsWith('ratio') ? [low] : [];
    }),
  );
  return margins.length > 0 ? Math.min(...margins) : undefined;
}

/** One part up to a stage and another from it on, where none does it in all stages. */
function splits(
  choosing: Choosing,
  slot: Slot,
  empty: Trial,
  fails: readonly { part: ShelfPart; errors: readonly Finding[] }[],
): Option[] {
  const { values, plan } = choosing.build;
  const cheap = fails.toSorted(
    (one, other) => (one.part.cost ?? Number.POSITIVE_INFINITY) - (other.part.cost ?? Number.POSITIVE_INFINITY),
  );
  const fits = (errors: readonly Finding[], from: number, to: number) =>
    errors.every(({ stages }) => stages.length > 0 && stages.every((stage) => stage < from || stage >= to));
  const found: Option[] = [];
  for (let from = 1; from < plan.length; from++) {
    const early = cheap.filter(({ errors }) => fits(errors, 0, from)).slice(0, MOST_SPLIT);
    const late = cheap.filter(({ errors }) => fits(errors, from, plan.length)).slice(0, MOST_SPLIT);
    for (const now of early) {
      for (const later of late) {
        const trial = choosing.trial(valuesWithLater(values, slot, now.part, later.part, from), empty);
        if (newErrors(empty.errors, trial.errors).length > 0) continue;
        const placings = [
          { slot, part: now.part },
          { slot, part: later.part, from },
        ];
        found.push(optionOf(empty, trial, placings));
      }
    }
  }
  return found;
}

function missedOf(
  choosing: Choosing,
  slot: Slot,
  empty: Trial,
  part: ShelfPart,
  trial: Trial,
  errors: readonly Finding[],
): Missed {
  const own = errors.find(({ path }) => isInSlot(path, slot)) ?? errors[0];
  const names = (own?.stages ?? []).map((stage) => choosing.build.plan[stage]?.name ?? String(stage + 1));
  return {
    part,
    rule: own?.found ?? '',
    reason: own?.message ?? '',
    stages: names,
    margin: leastMargin(empty.plan, trial.plan),
    errors: new Set(errors.map(({ found }) => found)).size,
    ways: [],
  };
}

/** What the rules offer that is about something else than the part, and with which the part fits. */
function waysFor(
  choosing: Choosing,
  slot: Slot,
  empty: Trial,
  fails: readonly { part: ShelfPart; trial: Trial; errors: readonly Finding[] }[],
  part: ShelfPart,
): string[] {
  const fail = fails.find((one) => one.part === part);
  if (!fail) return [];
  const fitted = fittedAt(choosing.build.values, slot);
  const isOfPart = (path: readonly (string | number)[]) => {
    const steps = path.filter((step) => typeof step === 'string');
    const at = steps.join('.').indexOf(slot.field);
    const last = String(path.at(-1));
    return at >= 0 && !(last in fitted);
  };
  const repairs = fail.errors.flatMap((error) => error.repairs).slice(0, MOST_WAYS * 2);
  const ways = repairs.flatMap(({ title, changes }) => {
    if (changes.some((change) => isOfPart('set' in change ? change.set : change.remove))) return [];
    const values = changedValues(fail.trial.values, changes);
    if (!values) return [];
    const after = choosing.trial(values, fail.trial);
    return newErrors(empty.errors, after.errors).length === 0 ? [title] : [];
  });
  return [...new Set(ways)].slice(0, MOST_WAYS);
}

/** Parts that not every build has, or that are in the car: open only where the sheet leaves room for them. */
const OPTIONAL = new Set(['intake', 'adapter', 'tank', 'lift-pump', 'suction', 'lift-pump-circuit', 'fan-circuit']);

/** The slots that a sheet says nothing of that tells which part is there, and for which the catalogs have any. */
export function openSlots(choosing: Choosing): Slot[] {
  const { sheet } = choosing.checked;
  return slots.filter((slot) => {
    if (choosing.candidates(slot).length === 0) return false;
    if (OPTIONAL.has(slot.name) && !entryOf(sheet, slot.path)) return false;
    const outer = slots.find((other) => other !== slot && slot.field.startsWith(`${other.field}.`));
    if (outer?.name === 'throttle-body') return false;
    return !isDescribed(sheet.values, slot);
  });
}

function isDescribed(values: Values, slot: Slot): boolean {
  let section: unknown = values;
  for (const step of slot.path) section = (section as Record<string, unknown> | undefined)?.[step];
  if (typeof section !== 'object' || section === null) return false;
  const fitted = fittedAt(values, slot);
  return Object.entries(section).some(([name, value]) => value !== undefined && !(name in fitted));
}
