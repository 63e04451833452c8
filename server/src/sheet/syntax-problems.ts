import type { YAMLError } from 'yaml';
import { endOfLine, startOfLine } from '../text/lines.ts';
import type { Break } from './broken-stretch.ts';
import { duplicateField } from './duplicate-field.ts';
import { type Entry, entryAt, type Range } from './entry.ts';
import { lineMistake } from './line-mistake.ts';
import type { Problem } from './problem.ts';
import type { Recovered } from './recover.ts';
import type { Path } from './schema.ts';
import { ownersOf, unreadPaths } from './unread-parts.ts';

/** What is wrong with the YAML of a text, one problem for one mistake, and the paths that could not be read because of it. */
export function syntaxProblems({ root, errors, breaks, tabs }: Recovered, text: string) {
  const told = new Set<number>();
  const problems: Problem[] = [];
  const unread: Path[] = [];
  const tell = (problem: Problem) => {
    const line = startOfLine(text, problem.range.start);
    if (!told.has(line)) problems.push(problem);
    told.add(line);
  };
  if (tabs.length > 0) tell(tabProblem(text, tabs));
  for (const stretch of breaks) {
    const owners = ownersOf(stretch, text, root);
    unread.push(...unreadPaths(owners));
    tell(breakProblem(stretch, text, owners[0]?.parent ?? root));
  }
  for (const error of errors) {
    const entry = entryAt(root, error.pos[0]);
    if (error.code === 'MULTIPLE_DOCS') unread.push([]);
    else if (error.code !== 'DUPLICATE_KEY') unread.push(entry.path);
    tell(error.code === 'DUPLICATE_KEY' ? duplicateField(entry, root, text) : plainProblem(error, text));
  }
  return { problems: problems.toSorted((one, other) => one.range.start - other.range.start), unread };
}

function breakProblem(stretch: Break, text: string, parent: Entry): Problem {
  return lineMistake(stretch, text, parent) ?? plainProblem(stretch.error, text);
}

function plainProblem(error: YAMLError, text: string): Problem {
  return { code: 'sheet/syntax', message: messageOf(error), range: placeOf(error, text), fixes: [] };
}

function tabProblem(text: string, tabs: readonly number[]): Problem {
  const lines = new Set(tabs.map((tab) => startOfLine(text, tab)));
  const others = lines.size > 2 ? ` So are ${lines.size - 1} more lines.` : lines.size > 1 ? ' So is 1 more line.' : '';
  const start = tabs[0] ?? 0;
  return {
    code: 'sheet/syntax',
    message: `This line is indented with a tab; YAML wants spaces.${others}`,
    range: { start, end: start + 1 },
    fixes: [
      {
        title: 'Indent with spaces',
        edits: tabs.map((tab) => ({ start: tab, end: tab + 1, text: '  ' })),
        preferred: true,
      },
    ],
  };
}

const CLOSING = /end with a (\S)$/;

const MESSAGES: Partial<Record<YAMLError['code'], string>> = {
  BAD_ALIAS: 'No anchor of that name stands above.',
  BAD_COLLECTION_TYPE: 'Only fields can be merged: write an alias of a mapping.',
  BAD_DQ_ESCAPE: 'A backslash in double quotes begins an escape; write it twice, or use single quotes.',
  BAD_INDENT: 'This line is not indented like its neighbors.',
  BAD_SCALAR_START: 'A value cannot begin with this character; put the value in quotes.',
  BLOCK_AS_IMPLICIT_KEY: 'A value with ": " in it needs quotes; fields of its own begin on a line of their own.',
  BLOCK_IN_FLOW: 'Inside braces and brackets, fields are written as "name: value" with commas between.',
  MISSING_CHAR: 'Something is missing here: a ":", a comma, a quote, or a closing bracket or brace.',
  MULTILINE_IMPLICIT_KEY: 'This does not fit here: look for a missing ":" or a wrong indent.',
  MULTIPLE_DOCS: 'A build sheet holds one document; move what follows "---" to a file of its own.',
  NON_STRING_KEY: 'The name of a field is a plain word.',
  TAB_AS_INDENT: 'Indent with spaces, not tabs.',
  UNEXPECTED_TOKEN: 'This does not belong here.',
};

function messageOf({ code, message }: YAMLError): string {
  const closing = CLOSING.exec(message)?.[1];
  if (closing) return `A closing "${closing}" is missing.`;
  if (message.startsWith('Missing closing')) return 'A closing quote is missing.';
  return MESSAGES[code] ?? 'This is not valid YAML.';
}

/** The stretch in question: to the end of its line at most, a whole word where only its beginning is known. */
function placeOf({ pos }: YAMLError, text: string): Range {
  const from = Math.min(pos[0], text.length);
  const lineEnd = endOfLine(text, from);
  const rest = text.slice(from, lineEnd);
  const start = from + (/^ */.exec(rest)?.[0].length ?? 0);
  if (start === lineEnd) return beforeGap(text, from);
  const word = /^[\w-]+/.exec(text.slice(start, lineEnd))?.[0].length ?? 1;
  return { start, end: Math.max(start + word, Math.min(pos[1], lineEnd)) };
}

/** Where nothing is written, the last character before it, so that an editor has something to mark. */
function beforeGap(text: string, offset: number): Range {
  const end = text.slice(0, offset).trimEnd().length;
  return end > 0 ? { start: end - 1, end } : { start: 0, end: Math.min(1, text.length) };
}
