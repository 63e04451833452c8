import type { NewValue } from '../sheet/edit.ts';
import type { FieldPath } from '../sheet/path.ts';
import { type Broken, brokenBy, type Trials } from './trials.ts';

/** The last value that does, and what the next one breaks. */
export type End = { value: number; broken: readonly Broken[] };

/**
 * The values of a number that break no rule in any stage. Without an end every value of the range does. Where `low` is
 * above `high` no value does: the two ends collide. `standing` is broken at every value, so that another field must mend it.
 */
export type Window = { low?: End; high?: End; standing: readonly Broken[] };

/** A number of the sheet to be tried, SI, over a range, and how a value of it is written. */
export type Property = {
  field: FieldPath;
  from: number;
  to: number;
  write: (value: number) => NewValue;
  without?: readonly FieldPath[];
};

/** Values tried first, in equal ratios, to see which rules make which end. */
const GRID = 15;
/** Ratio within which an end is found. */
const EXACT = 1.0002;

type Tried = { value: number; broken: readonly Broken[] };

/**
 * The window of a property over all stages. Every rule is taken to be kept on one stretch of the range: the one around the
 * values that break no rule, where there are any, since a rule that is silent beside a worse finding only seems to be kept.
 */
export function windowOf(trials: Trials, property: Property): Window {
  const grid = valuesOf(property).flatMap((value) => tried(trials, property, value) ?? []);
  const all = new Map(grid.flatMap(({ broken }) => broken.map((one) => [keyOf(one), one] as const)));
  const standing: Broken[] = [];
  const kept = new Map<string, boolean[]>();
  for (const [key, one] of all) {
    const where = grid.map(({ broken }) => !broken.some((other) => keyOf(other) === key));
    if (where.some(Boolean)) kept.set(key, where);
    else if (hangsOnValue(key, grid)) standing.push(one);
  }
  const open = longestRun(grid.map((_, index) => [...kept.values()].every((where) => where[index])));
  const lows = new Map<string, number>();
  const highs = new Map<string, number>();
  for (const [key, where] of kept) {
    const run = open ? runAround(where, open) : longestRun(where);
    if (!run) continue;
    if (run.start > 0) lows.set(key, run.start);
    if (run.end < grid.length - 1) highs.set(key, run.end);
  }
  const low = endOf(trials, property, grid, lows, -1);
  const high = endOf(trials, property, grid, highs, 1);
  return { ...(low && { low }), ...(high && { high }), standing };
}

function valuesOf({ from, to }: Property): number[] {
  return Array.from({ length: GRID }, (_, index) => from * (to / from) ** (index / (GRID - 1)));
}

function tried(trials: Trials, { field, write, without }: Property, value: number): Tried | undefined {
  const broken = brokenBy(trials, field, write(value), without);
  return broken && { value, broken };
}

/** Whether a rule that every value breaks speaks of the value; otherwise it is about something else. */
function hangsOnValue(key: string, grid: readonly Tried[]): boolean {
  const said = grid.flatMap(({ broken }) => broken.find((one) => keyOf(one) === key)?.message ?? []);
  return new Set(said).size > 1;
}

function keyOf({ rule, stage }: Broken): string {
  return `${rule} ${stage}`;
}

type Run = { start: number; end: number };

/** The stretch that is kept around one of which all is. */
function runAround(kept: readonly boolean[], { start, end }: Run): Run {
  const below = kept.lastIndexOf(false, start);
  const above = kept.indexOf(false, end);
  return { start: below + 1, end: above < 0 ? kept.length - 1 : above - 1 };
}

function longestRun(kept: readonly boolean[]): Run | undefined {
  let best: Run | undefined;
  let start = 0;
  kept.forEach((isKept, index) => {
    if (!isKept) start = index + 1;
    else if (!best || index - start > best.end - best.start) best = { start, end: index };
  });
  return best;
}

/**
 * Where the last of the rules that make an end begins to be broken: below (-1) or above (1). `ends` has the grid's last
 * kept value of each rule on that side.
 */
function endOf(
  trials: Trials,
  property: Property,
  grid: readonly Tried[],
  ends: ReadonlyMap<string, number>,
  side: -1 | 1,
): End | undefined {
  if (ends.size === 0) return undefined;
  const last = side < 0 ? Math.max(...ends.values()) : Math.min(...ends.values());
  const own = new Set([...ends].flatMap(([key, index]) => (index === last ? [key] : [])));
  let inside = grid[last] as Tried;
  let outside = grid[last + side] as Tried;
  while (Math.max(inside.value / outside.value, outside.value / inside.value) > EXACT) {
    const middle = tried(trials, property, Math.sqrt(inside.value * outside.value));
    if (!middle) break;
    if (middle.broken.some((one) => own.has(keyOf(one)))) outside = middle;
    else inside = middle;
  }
  return { value: inside.value, broken: outside.broken.filter((one) => own.has(keyOf(one))) };
}
