import type { YAMLError } from 'yaml';
import { endOfLine, nextLine, startOfLine } from '../text/lines.ts';
import { type Entry, type Range, wholeRange } from './entry.ts';

/** A stretch of whole lines that cannot be read, the error that told, and the column it should begin at if that is all. */
export type Break = Range & { error: YAMLError; indent: number | undefined };

/** The lines to leave out because of an error: the line at fault with what belongs to it. */
export function brokenStretch(error: YAMLError, text: string, root: Entry): Break | undefined {
  const brackets = bracketsAt(root, error, text);
  if (brackets) return { ...brackets, error, indent: undefined };
  const start = lineAtFault(error, text, root);
  const indent = columnMeant(start, text, error);
  const end = endOfBlock(text, start, Math.max(columnOf(text, start), indent ?? 0));
  return text.slice(start, end).trim() === '' ? undefined : { start, end, error, indent };
}

/** The lines of the outermost brackets around the error, or left open before it. */
function bracketsAt(root: Entry, { pos, message }: YAMLError, text: string): Range | undefined {
  const isOpen = /end with a [}\]]$/.test(message);
  const at = Math.min(pos[0], text.length);
  const holds = ({ value: { start, end } }: Entry) =>
    start <= at && (at < end || (isOpen && text.slice(end, at).trim() === ''));
  const found = outermost(root, (entry) => entry.flow && holds(entry));
  if (!found) return undefined;
  const last = Math.max(found.value.start, text.slice(0, found.value.end).trimEnd().length);
  return { start: startOfLine(text, wholeRange(found).start), end: endOfLine(text, last) };
}

function outermost(entry: Entry, fits: (entry: Entry) => boolean): Entry | undefined {
  if (fits(entry)) return entry;
  for (const inner of entry.children.toReversed()) {
    const found = inner.inherited || inner.anchored ? undefined : outermost(inner, fits);
    if (found) return found;
  }
  return undefined;
}

function lineAtFault({ code, pos, message }: YAMLError, text: string, root: Entry): number {
  if (/^Missing closing/.test(message)) {
    const open = outermost(root, ({ quote, value }) => quote !== undefined && value.end >= pos[0]);
    if (open) return startOfLine(text, open.value.start);
  }
  const upTo = text.slice(0, endOfLine(text, Math.min(pos[0], text.length))).trimEnd().length;
  const line = startOfLine(text, upTo);
  const written = text.slice(line, endOfLine(text, line));
  const isInOneLine = /^\s*(?:- +)*[^\s-][^:]*:\s/.test(written) && !/^\s*-[^\s-]/.test(written);
  const isOverTwo = code === 'MULTILINE_IMPLICIT_KEY' || code === 'BLOCK_AS_IMPLICIT_KEY';
  const next = nextWritten(text, line);
  if (next === undefined || !isInOneLine) return line;
  const isDeeper = columnOf(text, next) > columnOf(text, line) && isKeyLine(text, next);
  return (isOverTwo && isDeeper) || isStrayItem(text, line, next) ? next : line;
}

/** A dash below a field that has its value already. */
function isStrayItem(text: string, line: number, next: number): boolean {
  const isItem = indentOf(text, next) < columnOf(text, next) && indentOf(text, next) >= columnOf(text, line);
  return isItem && /:\s+[^\s#&!|>]/.test(text.slice(line, endOfLine(text, line)));
}

function isKeyLine(text: string, line: number): boolean {
  return /^\s*(?:- +)*[\w-]+\s*:(?:\s|$)/.test(text.slice(line, endOfLine(text, line)));
}

/** The next line below that holds more than a comment. */
function nextWritten(text: string, line: number): number | undefined {
  for (let at = nextLine(text, line); at < text.length; at = nextLine(text, at)) {
    if (/^\s*[^\s#]/.test(text.slice(at, endOfLine(text, at)))) return at;
  }
  return undefined;
}

/** The column a line was meant to begin at, where a wrong one is what is wrong with it: the nearest of those above. */
function columnMeant(line: number, text: string, { code, message, pos }: YAMLError): number | undefined {
  const isMisplaced =
    startOfLine(text, pos[0]) !== line || code === 'BAD_INDENT' || message.startsWith('Sequence item');
  if (!isMisplaced || !isKeyLine(text, line)) return undefined;
  const column = columnOf(text, line);
  const [nearest] = columnsAbove(text, line).toSorted(
    (one, other) => Math.abs(one - column) - Math.abs(other - column) || other - one,
  );
  return nearest === column ? undefined : nearest;
}

/** The columns at which fields stand in what is open above a line. */
function columnsAbove(text: string, line: number): number[] {
  const columns: number[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (let at = line; at > 0 && least > 0; ) {
    at = startOfLine(text, at - 1);
    if (!isKeyLine(text, at)) continue;
    const column = columnOf(text, at);
    if (column >= least) continue;
    columns.push(column);
    least = indentOf(text, at) < column ? indentOf(text, at) + 1 : column;
  }
  return columns;
}

/** Where what begins on a line ends: before the next line that is not further in. */
function endOfBlock(text: string, start: number, column: number): number {
  const isItem = indentOf(text, start) < column;
  let end = endOfLine(text, start);
  for (let at = nextWritten(text, start); at !== undefined; at = nextWritten(text, at)) {
    const indent = indentOf(text, at);
    const isList = !isItem && indent === column && /^\s*-(?:\s|$)/.test(text.slice(at, endOfLine(text, at)));
    if (indent <= column && !isList) break;
    end = endOfLine(text, at);
  }
  return end;
}

/** The column of the first word of a line, after any dashes. */
export function columnOf(text: string, line: number): number {
  return /^[ \t]*(?:- +)*/.exec(text.slice(line, endOfLine(text, line)))?.[0].length ?? 0;
}

function indentOf(text: string, line: number): number {
  return /^[ \t]*/.exec(text.slice(line, endOfLine(text, line)))?.[0].length ?? 0;
}
