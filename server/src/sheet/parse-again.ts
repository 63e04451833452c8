import { type Chunked, inherit, type Match, matched } from './chunk-match.ts';
import { brokenRun, parsedRun, type Run, takenApart } from './chunk-run.ts';
import { type Cut, cutsOf } from './cuts.ts';
import { type Entry, newEntry, type Range, wholeRange } from './entry.ts';
import { moved, movedError } from './moved.ts';
import { type Parsed, parse } from './parse.ts';
import type { FieldSchema } from './schema.ts';

/**
 * What `parse` gives of a text, and its chunks, if it can be read by chunks and nothing in it is broken. `isAgain`: whether
 * what is remembered of chunks is part of it.
 */
export type ParsedAgain = { parsed: Parsed; chunked: Chunked | undefined; isAgain: boolean };

/**
 * Parses a text of which an earlier version is known by chunks: only those that differ are parsed. The whole text is
 * parsed where a chunk by itself would not be read as it is among the others.
 * @throws TooLarge
 */
export function parseAgain(text: string, schema: FieldSchema, before: Chunked | undefined): ParsedAgain {
  const cuts = cutsOf(text);
  const match = cuts && before && matched(text, cuts, before);
  if (!match || match.fresh.length === cuts.length) return parseWhole(text, schema, cuts);
  const found = partsOf(text, schema, { cuts, sources: match.sources, before });
  if (!found || hasTwins(found.entries, cuts))
    return { parsed: parse(text, schema), chunked: undefined, isAgain: false };
  const { entries, errors } = found;
  inherit(entries, cuts, match, before);
  const parsed = { root: assembled(text, cuts, entries, schema), errors, isLocal: true };
  return { parsed, chunked: errors.length === 0 ? { text, cuts, entries } : undefined, isAgain: true };
}

function parseWhole(text: string, schema: FieldSchema, cuts: readonly Cut[] | undefined): ParsedAgain {
  const parsed = parse(text, schema);
  const isWhole = parsed.isLocal && parsed.errors.length === 0;
  const entries = cuts && isWhole ? takenApart(parsed.root, cuts, 0) : undefined;
  return { parsed, chunked: cuts && entries && { text, cuts, entries }, isAgain: entries !== undefined };
}

type Known = { cuts: readonly Cut[]; sources: Match['sources']; before: Chunked };
type Parts = { entries: Entry[]; errors: Parsed['errors'] };

/** The entry of each stretch: the one before where it repeats one, else parsed, with its neighbors that repeat none. */
function partsOf(text: string, schema: FieldSchema, { cuts, sources, before }: Known): Parts | undefined {
  const entries: Entry[] = [];
  const errors: Parsed['errors'] = [];
  let item = 0;
  const put = (entry: Entry, { kind, name }: Cut, by: number) => {
    item = kind === 'item' ? item + 1 : 0;
    const isThere = kind !== 'item' || entry.path[1] === item - 1;
    entries.push(moved(entry, by, isThere ? entry.path : [name, item - 1]));
  };
  while (entries.length < cuts.length) {
    const start = entries.length;
    const cut = cuts[start] as Cut;
    const source = sources[start];
    if (source !== undefined) {
      put(before.entries[source] as Entry, cut, cut.start - (before.cuts[source] as Cut).start);
      continue;
    }
    const run = freshRun(text, cuts, { start, end: endOfRun(start, cuts, sources) }, schema);
    if (!run) return undefined;
    for (const entry of run.entries) put(entry, cuts[entries.length] as Cut, run.from);
    errors.push(...run.errors.map((error) => movedError(error, run.from)));
  }
  return { entries, errors };
}

function freshRun(text: string, cuts: readonly Cut[], range: Range, schema: FieldSchema): Run | undefined {
  const run = parsedRun(text, cuts.slice(range.start, range.end), schema);
  return run?.errors.length === 0 ? run : brokenRun(text, cuts, range, schema);
}

/** Where neighbors that repeat none end, from one on; a run of items ends with their list. */
function endOfRun(start: number, cuts: readonly Cut[], sources: Match['sources']): number {
  const isItems = cuts[start]?.kind === 'item';
  let end = start;
  while (end < cuts.length && sources[end] === undefined && (!isItems || cuts[end]?.kind === 'item')) end++;
  return end;
}

/** Whether a field is written twice. */
function hasTwins(entries: readonly Entry[], cuts: readonly Cut[]): boolean {
  const names = entries.filter((_, index) => cuts[index]?.kind !== 'item').map(({ path }) => path[0]);
  return new Set(names).size < names.length;
}

/** The tree that the entries are parts of. */
function assembled(text: string, cuts: readonly Cut[], entries: readonly Entry[], schema: FieldSchema): Entry {
  const fields: Entry[] = [];
  const lists: Entry[] = [];
  for (const [index, { kind, end }] of cuts.entries()) {
    const entry = entries[index] as Entry;
    if (kind === 'item') lists.at(-1)?.children.push(entry);
    else if (kind === 'field') fields.push(entry);
    else {
      const list = newEntry(entry, { kind: 'list', value: { start: text.indexOf('-', end), end } });
      fields.push(list);
      lists.push(list);
    }
  }
  for (const { value, children } of lists) value.end = endOf(children);
  const start = fields[0]?.key?.start ?? 0;
  const value = { start, end: endOf(fields) };
  return newEntry({ path: [], key: undefined, schema }, { kind: 'map', value, children: fields });
}

function endOf(entries: readonly Entry[]): number {
  const last = entries.at(-1);
  return last ? wholeRange(last).end : 0;
}
