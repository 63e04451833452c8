import { quoted } from '../text/echo.ts';
import { endOfLine, nextLine } from '../text/lines.ts';
import { type Break, columnOf } from './broken-stretch.ts';
import type { Entry, Range } from './entry.ts';
import type { Problem } from './problem.ts';
import { knownFields } from './schema.ts';
import { meant } from './words.ts';

/** What a person does wrong in a line that YAML cannot read, in words, with the line as it was meant where that is plain. */
export function lineMistake(stretch: Break, text: string, parent: Entry): Problem | undefined {
  const { start, end, error, indent } = stretch;
  const column = columnOf(text, start);
  const lineEnd = endOfLine(text, start);
  const words = text.slice(start + column, lineEnd).trimEnd();
  const range = { start: start + column, end: start + column + words.length };
  if (error.pos[0] < range.start && /-/.test(text.slice(start, range.start)) && error.code !== 'BAD_INDENT')
    return problem('A dash begins an item of a list, and here is no list.', range);
  if (indent !== undefined) return misplaced(text, { start, end }, column, indent, words);
  return (
    dashed(words, range) ??
    leftOpen(error.message, text, stretch) ??
    glued(words, range) ??
    unmarked(words, range, parent)
  );
}

type Fix = Problem['fixes'][number];

function problem(message: string, range: Range, ...fixes: Fix[]): Problem {
  return { code: 'sheet/syntax', message, range, fixes };
}

/** One space too many or too few before a field: the lines are moved as one. */
function misplaced(text: string, { start, end }: Range, column: number, indent: number, words: string): Problem {
  const name = /^[^:]*/.exec(words)?.[0].trim() ?? words;
  const by = Math.abs(column - indent);
  const spaces = `${by} space${by === 1 ? '' : 's'} too ${column > indent ? 'many' : 'few'}`;
  const edits: Fix['edits'] = [];
  for (let at = start; at < end; at = nextLine(text, at)) {
    if (text.slice(at, endOfLine(text, at)).trim() === '') continue;
    if (column > indent) edits.push({ start: at, end: at + by, text: '' });
    else edits.push({ start: at, end: at, text: ' '.repeat(by) });
  }
  const range = { start: start + column, end: start + column + Math.max(1, name.length) };
  return problem(`There ${by === 1 ? 'is' : 'are'} ${spaces} before ${quoted(name)}.`, range, {
    title: `Line up ${quoted(name)}`,
    edits,
    preferred: false,
  });
}

/** `-name: x`, without the space that makes the dash begin an item. */
function dashed(words: string, range: Range): Problem | undefined {
  if (!/^-[A-Za-z][\w-]*\s*:(?:\s|$)/.test(words)) return undefined;
  const at = range.start + 1;
  return problem(
    'A dash that begins an item needs a space after it.',
    { start: range.start, end: range.start + (/^-[\w-]+/.exec(words)?.[0].length ?? 1) },
    { title: 'Put a space after the dash', edits: [{ start: at, end: at, text: ' ' }], preferred: true },
  );
}

/** A brace, a bracket or a quote that is opened on the line and not closed there. */
function leftOpen(message: string, text: string, { start, end }: Range): Problem | undefined {
  const quote = /^Missing closing (["'])/.exec(message)?.[1];
  const closing = /end with a ([}\]])$/.exec(message)?.[1] ?? quote;
  if (!closing) return undefined;
  const lines = text.slice(start, quote ? endOfLine(text, start) : end);
  const comment = quote ? -1 : lines.search(/\s+#[^\r\n]*$/);
  const written = (comment < 0 ? lines : lines.slice(0, comment)).trimEnd();
  const at = start + written.length;
  const what = quote ? 'A closing quote is missing.' : `A closing "${closing}" is missing.`;
  const range = { start: Math.max(start, at - 1), end: at };
  const added = closing === '}' && !written.endsWith('{') ? ' }' : closing;
  const title = `Close with "${closing}"`;
  return problem(what, range, { title, edits: [{ start: at, end: at, text: added }], preferred: false });
}

/** `induction:roots`. */
function glued(words: string, range: Range): Problem | undefined {
  const [, name, value] = /^([A-Za-z][\w-]*):([^\s:/].*)$/.exec(words) ?? [];
  if (name === undefined || value === undefined) return undefined;
  const at = range.start + name.length + 1;
  return problem(`A colon needs a space after it: ${quoted(`${name}: ${value}`)}.`, range, {
    title: 'Put a space after the colon',
    edits: [{ start: at, end: at, text: ' ' }],
    preferred: true,
  });
}

/** `cylinders 8` or `engine`, without a colon. */
function unmarked(words: string, range: Range, parent: Entry): Problem | undefined {
  if (/[:"'{}[\]&*|>#%@`]/.test(words)) return undefined;
  const [, first = '', value = ''] = /^([\w-]+)(?:\s+(.+))?$/.exec(words) ?? [];
  const field = first && meant(first, knownFields(parent.schema));
  if (!field) return problem(`${quoted(words)} is not finished: a field is written "name: value".`, range);
  const line = value ? `${field}: ${value}` : `${field}:`;
  return problem(`${quoted(words)} lacks a colon: write ${quoted(line)}.`, range, {
    title: `Write ${quoted(line)}`,
    edits: [{ ...range, text: line }],
    preferred: field === first,
  });
}
