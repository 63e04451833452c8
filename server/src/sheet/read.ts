import type { BuildSheet } from '../generated/build-sheet.ts';
import { endOfLine } from '../text/lines.ts';
import { marked } from '../text/place.ts';
import { plain, TooLarge } from './compose.ts';
import { inEveryStretch } from './cuts.ts';
import { childOf, type Entry, isUnknown, newEntry } from './entry.ts';
import { notesProblem } from './notes-problem.ts';
import { MOST_CHARACTERS, type Parsed, parse, refusal } from './parse.ts';
import type { Problem } from './problem.ts';
import { readValues } from './read-values.ts';
import { type Recovered, recover } from './recover.ts';
import type { FieldSchema, Path } from './schema.ts';
import { schemaProblems, type Validate } from './schema-problems.ts';
import { syntaxProblems } from './syntax-problems.ts';
import type { Parts } from './with-parts.ts';

/** A sheet as read from one version of its text. */
export type Sheet<Values = BuildSheet> = {
  text: string;
  root: Entry;
  /** Every field that could be read, quantities in SI; what could not be read is left out. */
  values: Partial<Values>;
  problems: Problem[];
  /** Whether the text is broken YAML. What could be read of it is here; the broken lines are left out. */
  broken: boolean;
  /** What could not be read, by path: a field, or the fields among which it stands. See `mayBeUnread`. */
  unread: Path[];
  /** The fields that are left empty: not known yet. */
  unknown: Path[];
  /** What it takes over from catalogs, once that was looked up; `values` hold the parts then. */
  parts?: Parts;
};

const MOST_PROBLEMS = 100;

/** What version control leaves where a merge was not settled. */
const CONFLICT = /^(<{7}|={7}|>{7})( .*)?$/m;

/** Stretches without it. */
const settled = new WeakSet<object>();

/**
 * Reads a text against a schema, parsed in one piece or as told. Never throws: what is wrong becomes a problem at its place.
 */
export function readText<Values>(
  text: string,
  schema: FieldSchema,
  validate: Validate,
  parsed = (readable: string): Parsed => parse(readable, schema),
  most = MOST_CHARACTERS,
): Sheet<Values> {
  const conflict = inEveryStretch(text, settled, (part) => !CONFLICT.test(part)) ? null : CONFLICT.exec(text);
  if (conflict) return unreadable(text, schema, conflictProblem(text, conflict.index));
  const refused = refusal(text, most);
  if (refused) return unreadable(text, schema, tooLarge(text, refused));
  try {
    return readRecovered(text, recover(text, parsed), validate);
  } catch (error) {
    if (!(error instanceof TooLarge)) throw error;
    return unreadable(text, schema, tooLarge(text, error.message));
  }
}

function readRecovered<Values>(text: string, recovered: Recovered, validate: Validate): Sheet<Values> {
  const { root } = recovered;
  const syntax = syntaxProblems(recovered, text);
  const broken = syntax.problems.length > 0;
  if (root.kind === 'empty') root.kind = 'map';
  const notes = notesProblem(text, root, broken);
  const invalid = new Map<string, Path>();
  const found = schemaProblems(root, text, plain(root), validate, { invalid, unread: syntax.unread });
  const { values, problems, unread } = readValues<Values>(root, invalid, text);
  const told = notes ? [notes] : [...syntax.problems, ...found, ...problems].slice(0, MOST_PROBLEMS);
  const allUnread = [...syntax.unread, ...unread];
  return {
    text,
    root,
    values,
    problems: told.map((problem) => ({ ...problem, range: marked(text, problem.range) })),
    broken,
    unread: allUnread,
    unknown: unknownFields(root, allUnread),
  };
}

function unreadable<Values>(text: string, schema: FieldSchema, problem: Problem): Sheet<Values> {
  const root = newEntry({ path: [], key: undefined, schema }, { kind: 'map', value: { start: 0, end: text.length } });
  return { text, root, values: {}, problems: [problem], broken: true, unread: [[]], unknown: [] };
}

function tooLarge(text: string, message: string): Problem {
  return { code: 'sheet/too-large', message, range: { start: 0, end: endOfLine(text, 0) }, fixes: [] };
}

/** The fields without a value, among those the schema knows, unless something of theirs is unread. */
function unknownFields(root: Entry, unread: readonly Path[]): Path[] {
  const isUnread = (path: Path) => unread.some((part) => path.every((step, index) => part[index] === step));
  return emptyFields(root).filter((path) => !isUnread(path));
}

function emptyFields(entry: Entry, found: Path[] = []): Path[] {
  const { part, path } = entry;
  if (!part) return emptyWithin(entry, found);
  part.empty ??= emptyWithin(entry, []).map((inner) => inner.slice(path.length));
  for (const inner of part.empty) found.push([...path, ...inner]);
  return found;
}

function emptyWithin(entry: Entry, found: Path[]): Path[] {
  if (!entry.schema || isOwn(entry.path)) return found;
  if (entry.key && isUnknown(entry)) found.push(entry.path);
  else for (const inner of entry.children) emptyFields(inner, found);
  return found;
}

/** Whether a field is the team's own, which the checks ignore. */
function isOwn([first]: Path): boolean {
  return String(first).startsWith('x-');
}

function conflictProblem(text: string, start: number): Problem {
  return {
    code: 'sheet/conflict',
    message: 'The text holds conflict markers of a version-control merge; choose one side and remove the markers.',
    range: { start, end: endOfLine(text, start) },
    fixes: [],
  };
}

/** The entry at a path, if the text has one. */
export function entryOf({ root }: { root: Entry }, path: Path): Entry | undefined {
  let entry: Entry | undefined = root;
  for (const step of path) entry = entry && stepInto(entry, step);
  return entry;
}

function stepInto(entry: Entry, step: string | number): Entry | undefined {
  if (typeof step === 'number') return entry.kind === 'list' ? entry.children[step] : undefined;
  return childOf(entry, step);
}

/** The entry at a path or, where the text has none, the nearest one around it. */
export function nearestEntry(sheet: { root: Entry }, path: Path): Entry {
  for (let length = path.length; length > 0; length--) {
    const entry = entryOf(sheet, path.slice(0, length));
    if (entry) return entry;
  }
  return sheet.root;
}
