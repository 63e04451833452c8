import { detached } from '../text/detached.ts';
import type { Cut } from './cuts.ts';
import { type Entry, newEntry, type Range } from './entry.ts';
import { type Parsed, parse } from './parse.ts';
import type { FieldSchema } from './schema.ts';

/** The entries of neighboring stretches and what is wrong there, where they stand if the text begins `from` there. */
export type Run = { entries: readonly Entry[]; errors: Parsed['errors']; from: number };

/**
 * Neighboring stretches parsed by themselves, items under a head of their own; nothing where they would not be read so
 * among the others.
 * @throws TooLarge
 */
export function parsedRun(text: string, run: readonly Cut[], schema: FieldSchema): Run | undefined {
  const [first] = run;
  const last = run.at(-1);
  if (!first || !last) return undefined;
  const stretch = text.slice(first.start, last.end);
  if (first.kind !== 'item') return runOf(detached(stretch), run, first.start, schema);
  const head = `${first.name}:\n`;
  const from = first.start - head.length;
  const cuts = [{ ...first, kind: 'head' as const, start: from, end: first.start }, ...run];
  const found = runOf(head + stretch, cuts, from, schema);
  return found && { ...found, entries: found.entries.slice(1) };
}

function runOf(text: string, run: readonly Cut[], from: number, schema: FieldSchema): Run | undefined {
  const { root, errors, isLocal } = parse(text, schema);
  const entries = isLocal ? takenApart(root, run, from) : undefined;
  return entries && { entries, errors, from };
}

/**
 * Neighboring stretches with something wrong in them, parsed between those before and after them; nothing where what is
 * wrong does not end with them.
 * @throws TooLarge
 */
export function brokenRun(
  text: string,
  cuts: readonly Cut[],
  { start, end }: Range,
  schema: FieldSchema,
): Run | undefined {
  const before = Math.max(0, start - 1);
  const run = parsedRun(text, cuts.slice(before, end + 1), schema);
  const first = cuts[start]?.start ?? 0;
  const last = cuts[end - 1]?.end ?? text.length;
  const isWithin = run?.errors.every(({ pos: [at] }) => first <= at + run.from && at + run.from < last);
  return run && isWithin ? { ...run, entries: run.entries.slice(start - before, end - before) } : undefined;
}

/**
 * The entries that neighboring stretches stand for, if what was parsed of them, `from` where on, is made of just these. Each
 * begins to be remembered.
 */
export function takenApart(root: Entry, run: readonly Cut[], from: number): Entry[] | undefined {
  if (root.flow) return undefined;
  const entries: Entry[] = [];
  for (const field of root.children) {
    if (run[entries.length]?.kind !== 'head') entries.push(field);
    else if (field.kind === 'empty') entries.push(headOf(field));
    else if (field.kind === 'list' && !field.flow) entries.push(headOf(field), ...field.children);
    else return undefined;
  }
  if (entries.length !== run.length) return undefined;
  for (const [index, entry] of entries.entries()) {
    if (!standsFor(entry, run[index] as Cut, from)) return undefined;
    entry.part = {};
  }
  return entries;
}

/** The head of a list without its items. */
function headOf(entry: Entry): Entry {
  return newEntry(entry, { kind: 'list', value: entry.value });
}

/** A field at the margin needs a name; where nothing is written before the colon its place depends on what is above. */
function standsFor({ key, value }: Entry, { kind, start, end }: Cut, from: number): boolean {
  if (kind === 'item') return !key && start < value.start + from && value.start + from <= end;
  return key !== undefined && key.end > key.start && key.start + from === start;
}
