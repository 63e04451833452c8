import { type Chunked, inherit, type Match, matched } from './chunk-match.ts';
import { parsedRun, takenApart } from './chunk-run.ts';
import { type Cut, cutsOf } from './cuts.ts';
import { collection, type Entry, wholeRange } from './entry.ts';
import { moved } from './moved.ts';
import { type Parsed, parse } from './parse.ts';
import type { FieldSchema } from './schema.ts';

/** What `parse` gives of a text, and its chunks, if it can be read by chunks. */
export type ParsedAgain = { parsed: Parsed; chunked: Chunked | undefined };

/**
 * Parses a text of which an earlier version is known by chunks: only those that differ are parsed. The whole text is
 * parsed where a chunk by itself would not be read as it is among the others.
 * @throws TooLarge
 */
export function parseAgain(text: string, schema: FieldSchema, before: Chunked | undefined): ParsedAgain {
  const cuts = cutsOf(text);
  const match = cuts && before && matched(text, cuts, before);
  if (!match || match.fresh.length === cuts.length) return parseWhole(text, schema, cuts);
  const entries = entriesOf(text, schema, { cuts, sources: match.sources, before });
  if (!entries || hasTwins(entries, cuts)) return { parsed: parse(text, schema), chunked: undefined };
  inherit(entries, cuts, match, before);
  const root = assembled(text, cuts, entries, schema);
  return { parsed: { root, errors: [], isLocal: true }, chunked: { text, cuts, entries } };
}

function parseWhole(text: string, schema: FieldSchema, cuts: readonly Cut[] | undefined): ParsedAgain {
  const parsed = parse(text, schema);
  const entries = cuts && parsed.isLocal ? takenApart(parsed.root, cuts, 0) : undefined;
  return { parsed, chunked: cuts && entries && { text, cuts, entries } };
}

type Known = { cuts: readonly Cut[]; sources: Match['sources']; before: Chunked };

/** The entry of each stretch: the one before where it repeats one, else parsed, with its neighbors that repeat none. */
function entriesOf(text: string, schema: FieldSchema, { cuts, sources, before }: Known): Entry[] | undefined {
  const entries: Entry[] = [];
  let item = 0;
  const put = (entry: Entry, { kind, name }: Cut, by: number) => {
    item = kind === 'item' ? item + 1 : 0;
    const isThere = kind !== 'item' || entry.path[1] === item - 1;
    entries.push(moved(entry, by, isThere ? entry.path : [name, item - 1]));
  };
  while (entries.length < cuts.length) {
    const cut = cuts[entries.length] as Cut;
    const source = sources[entries.length];
    if (source !== undefined) {
      put(before.entries[source] as Entry, cut, cut.start - (before.cuts[source] as Cut).start);
      continue;
    }
    const run = runFrom(entries.length, cuts, sources);
    const fresh = parsedRun(text, run, schema);
    if (!fresh) return undefined;
    fresh.entries.forEach((entry, index) => {
      put(entry, run[index] as Cut, fresh.from);
    });
  }
  return entries;
}

/** Neighbors that repeat none, from one on; a run of items ends with their list. */
function runFrom(from: number, cuts: readonly Cut[], sources: Match['sources']): Cut[] {
  const isItems = cuts[from]?.kind === 'item';
  let to = from;
  while (to < cuts.length && sources[to] === undefined && (!isItems || cuts[to]?.kind === 'item')) to++;
  return cuts.slice(from, to);
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
      const list = collection('list', entry, { start: text.indexOf('-', end), end }, []);
      fields.push(list);
      lists.push(list);
    }
  }
  for (const { value, children } of lists) value.end = endOf(children);
  const start = fields[0]?.key?.start ?? 0;
  return collection('map', { path: [], key: undefined, schema }, { start, end: endOf(fields) }, fields);
}

function endOf(entries: readonly Entry[]): number {
  const last = entries.at(-1);
  return last ? wholeRange(last).end : 0;
}
