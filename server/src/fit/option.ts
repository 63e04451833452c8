import type { StageAnalysis } from '../analysis/analysis.ts';
import { isKnown } from '../analysis/figure.ts';
import { figureNamed } from '../analysis/figures.ts';
import { heldAgainst } from '../analysis/headlines.ts';
import { limit } from '../analysis/node.ts';
import { identities } from '../checking/identity.ts';
import type { ShelfPart } from '../sheet/shelf.ts';
import { isInSlot, type Slot } from '../sheet/slots.ts';
import type { Trial, Values } from './choosing.ts';
import { costOf, hoseFor, sumOf } from './cost.ts';
import { type BestAt, frontOf, type Measures, shownOf } from './front.ts';
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

/** Parts in their slots with all they are measured by. */
export function optionOf(empty: Trial, trial: Trial, placings: readonly Placing[]): Option {
  const known = new Set(empty.findings.flatMap(identities));
  const warned = trial.findings.filter(
    (finding) => finding.severity === 'warning' && identities(finding).some((one) => !known.has(one)),
  );
  return {
    placings,
    ...pricesOf(trial.values, empty, placings),
    margin: leastMargin(empty.plan, trial.plan),
    changed: placings.length,
    warnings: [...new Set(warned.map(({ message }) => message))],
    doubts: warned.filter(({ path }) => placings.some(({ slot }) => isInSlot(path, slot))).length,
  };
}

/** The same with a part that does the same and has another price. */
export function alikeOption(empty: Trial, values: Values, option: Option, placings: readonly Placing[]): Option {
  return { ...option, placings, ...pricesOf(values, empty, placings) };
}

/** What parts cost, and the wishes they meet, of which some are about cost. */
function pricesOf(values: Values, empty: Trial, placings: readonly Placing[]) {
  const cost = costOfPlacings(values, placings);
  const now = costOfPlacings(
    values,
    placings.filter(({ from }) => from === undefined),
  );
  const names = placings.map(({ slot }) => slot.name);
  const met = wishesMet(values, empty.plan, { now, all: cost }, names);
  return { cost, wishes: met.length, met };
}

/** What parts cost in their slots; of a hose for several runs what is bought for all of them together. */
export function costOfPlacings(values: Trial['values'], placings: readonly Placing[]): number | undefined {
  const hoses = new Map<ShelfPart, Placing[]>();
  const others: Placing[] = [];
  for (const placing of placings) {
    const { part } = placing;
    if (part.kind !== 'line' || !part.costPer) others.push(placing);
    else hoses.set(part, [...(hoses.get(part) ?? []), placing]);
  }
  return sumOf([
    ...others.map(({ slot, part }) => costOf(values, slot, part)),
    ...[...hoses].map(
      ([part, runs]) =>
        hoseFor(
          values,
          part,
          runs.map(({ slot }) => slot),
        )?.cost,
    ),
  ]);
}

/** The front of those about which the rules doubt least: a part that earns a warning yields to those that earn none. */
export function bestOf(options: readonly Option[]): Option[] {
  const least = Math.min(...options.map(({ doubts }) => doubts));
  return frontOf(options.filter(({ doubts }) => doubts === least));
}

/** What of several options is told, and how many more do it as well. */
export function shownWithRest(options: readonly Option[]): { options: Shown[]; alsoFit: number } {
  const shown = shownOf(bestOf(options));
  return { options: shown, alsoFit: options.length - shown.length };
}

/** The least share by which a figure that stands on the parts keeps clear of its limit, over all stages and bad ends. */
export function leastMargin(before: readonly StageAnalysis[], after: readonly StageAnalysis[]): number | undefined {
  let least: number | undefined;
  for (const [index, stage] of after.entries()) {
    for (const held of Object.keys(heldAgainst)) {
      const margin = marginOf(held, before[index], stage);
      if (margin !== undefined && (least === undefined || margin < least)) least = margin;
    }
  }
  return least;
}

function marginOf(id: string, before: StageAnalysis | undefined, stage: StageAnalysis): number | undefined {
  const node = figureNamed(id);
  const held = heldAgainst[id];
  const now = node && stage.see(node);
  const was = node && before?.see(node);
  if (!node || !held || !now || !isKnown(now) || (was && isKnown(was) && was.value === now.value)) return undefined;
  const bound = typeof held.limit === 'number' ? held.limit : stage.know(limit(held.limit));
  if (bound === undefined) return undefined;
  const bounds = stage.boundsOf(node);
  if (held.side === 'at most') return (bound - (bounds?.high ?? now.value)) / bound;
  const low = bounds?.low ?? now.value;
  if (bound > 0) return low / bound - 1;
  return node.dimension.startsWith('ratio') ? low : undefined;
}
