import { parseDocument } from 'yaml';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { compose, plain, TooLarge } from './compose.ts';
import type { Entry } from './entry.ts';
import { endOfLine } from './lines.ts';
import type { Problem } from './problem.ts';
import { readValues } from './read-values.ts';
import type { FieldSchema, Path } from './schema.ts';
import { schemaProblems, type Validate } from './schema-problems.ts';
import { syntaxProblems } from './syntax-problems.ts';

/** A sheet as read from one version of its text. */
export type Sheet<Values = BuildSheet> = {
  text: string;
  root: Entry;
  /** Every field that could be read, quantities in SI; what could not be read is left out. */
  values: Partial<Values>;
  problems: Problem[];
  /** Whether the text is broken YAML, so that what is missing may only be half typed. */
  broken: boolean;
};

const MOST_PROBLEMS = 100;

/** Reads a text against a schema. Never throws: what is wrong becomes a problem at its place. */
export function readText<Values>(text: string, schema: FieldSchema, validate: Validate): Sheet<Values> {
  const conflict = /^(<{7}|={7}|>{7})( .*)?$/m.exec(text);
  if (conflict) return unreadable(text, schema, conflictProblem(text, conflict.index));
  const document = parseDocument(text, { merge: true, prettyErrors: false, logLevel: 'error' });
  let root: Entry;
  try {
    root = compose(document, schema);
  } catch (error) {
    if (!(error instanceof TooLarge)) throw error;
    const range = { start: 0, end: endOfLine(text, 0) };
    return unreadable(text, schema, { code: 'sheet/too-large', message: error.message, range, fixes: [] });
  }
  const syntax = syntaxProblems(document.errors.slice(0, MOST_PROBLEMS), text);
  if (root.kind === 'empty' && syntax.length === 0) root.kind = 'map';
  const invalid = new Set<string>();
  const found = schemaProblems(root, text, plain(root), validate, invalid);
  const { values, problems } = readValues<Values>(root, invalid, text);
  const told = (syntax.length ? syntax : [...found, ...problems]).slice(0, MOST_PROBLEMS);
  return { text, root, values, problems: told.map((one) => onOneLine(one, text)), broken: syntax.length > 0 };
}

/** The problem marked on its first line only. */
function onOneLine(problem: Problem, text: string): Problem {
  const { start, end } = problem.range;
  return { ...problem, range: { start, end: Math.min(end, endOfLine(text, start)) } };
}

function unreadable<Values>(text: string, schema: FieldSchema, problem: Problem): Sheet<Values> {
  const value = { start: 0, end: text.length };
  const root: Entry = {
    path: [],
    key: undefined,
    value,
    schema,
    kind: 'map',
    flow: false,
    inherited: false,
    scalar: undefined,
    quote: undefined,
    children: [],
  };
  return { text, root, values: {}, problems: [problem], broken: true };
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

function stepInto({ kind, children }: Entry, step: string | number): Entry | undefined {
  if (typeof step === 'number') return kind === 'list' ? children[step] : undefined;
  return children.findLast((inner) => inner.path.at(-1) === step);
}

/** The entry at a path or, where the text has none, the nearest one around it. */
export function nearestEntry(sheet: { root: Entry }, path: Path): Entry {
  for (let length = path.length; length > 0; length--) {
    const entry = entryOf(sheet, path.slice(0, length));
    if (entry) return entry;
  }
  return sheet.root;
}
