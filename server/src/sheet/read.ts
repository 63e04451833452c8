import { LineCounter, parseDocument, type YAMLError } from 'yaml';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { compose, plain, TooLarge } from './compose.ts';
import type { Entry, Range } from './entry.ts';
import type { Problem } from './problem.ts';
import { readValues } from './read-values.ts';
import type { FieldSchema, Path } from './schema.ts';
import { schemaProblems, type Validate } from './schema-problems.ts';

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
  if (conflict) return unreadable(text, schema, conflictProblem(text));
  const lines = new LineCounter();
  const document = parseDocument(text, { merge: true, prettyErrors: false, lineCounter: lines, logLevel: 'error' });
  let root: Entry;
  try {
    root = compose(document, schema);
  } catch (error) {
    if (!(error instanceof TooLarge)) throw error;
    const range = { start: 0, end: endOfLine(text, 0) };
    return unreadable(text, schema, { code: 'sheet/too-large', message: error.message, range, fixes: [] });
  }
  const syntax = document.errors.slice(0, MOST_PROBLEMS).map((error) => syntaxProblem(error, text));
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

function conflictProblem(text: string): Problem {
  const start = text.search(/^(<{7}|={7}|>{7})/m);
  return {
    code: 'sheet/conflict',
    message: 'The text holds conflict markers of a version-control merge; choose one side and remove the markers.',
    range: { start, end: endOfLine(text, start) },
    fixes: [],
  };
}

function syntaxProblem(error: YAMLError, text: string): Problem {
  const [from, to] = error.pos;
  const start = Math.min(from, text.length);
  const word = error.code === 'DUPLICATE_KEY' ? (/^[^\s:]+/.exec(text.slice(start))?.[0].length ?? 0) : 0;
  const end = Math.max(start + word, Math.min(to, endOfLine(text, start)));
  return { code: 'sheet/syntax', message: syntaxMessage(error), range: visible(text, { start, end }), fixes: [] };
}

const SYNTAX: Partial<Record<YAMLError['code'], string>> = {
  DUPLICATE_KEY: 'This field is already written above; keep one of the two.',
  MULTIPLE_DOCS: 'A build sheet holds one document; move what follows `---` to a file of its own.',
  TAB_AS_INDENT: 'Indent with spaces, not tabs.',
  BAD_INDENT: 'This line is not indented like its neighbors.',
  MISSING_CHAR: 'Something is missing here: a `:`, a quote, or a closing bracket or brace.',
  UNEXPECTED_TOKEN: 'This does not belong here.',
  BAD_ALIAS: 'No anchor of that name stands above.',
  BAD_COLLECTION_TYPE: 'Only fields can be merged: write an alias of a mapping.',
  NON_STRING_KEY: 'The name of a field is a plain word.',
  RESOURCE_EXHAUSTION: 'This nests deeper than any build sheet does.',
};

function syntaxMessage(error: YAMLError): string {
  return SYNTAX[error.code] ?? `This is not valid YAML: ${error.message}.`;
}

function endOfLine(text: string, offset: number): number {
  const end = text.slice(offset).search(/\r?\n/);
  return end < 0 ? text.length : offset + end;
}

/** An empty range is widened to the character before it, so that an editor can show it. */
function visible(text: string, { start, end }: Range): Range {
  if (end > start) return { start, end };
  return start > 0 && text[start - 1] !== '\n'
    ? { start: start - 1, end: start }
    : { start, end: Math.min(start + 1, text.length) };
}

/** The entry at a path, if the text has one. */
export function entryOf({ root }: { root: Entry }, path: Path): Entry | undefined {
  let entry: Entry | undefined = root;
  for (const step of path) entry = entry && stepInto(entry, step);
  return entry;
}

function stepInto({ kind, children }: Entry, step: string | number): Entry | undefined {
  if (typeof step === 'number') return kind === 'list' ? children[step] : undefined;
  return children.find((inner) => inner.path.at(-1) === step);
}

/** The entry at a path or, where the text has none, the nearest one around it. */
export function nearestEntry(sheet: { root: Entry }, path: Path): Entry {
  for (let length = path.length; length > 0; length--) {
    const entry = entryOf(sheet, path.slice(0, length));
    if (entry) return entry;
  }
  return sheet.root;
}
