import { newline, startOfLine } from '../text/lines.ts';
import { plain } from './compose.ts';
import { type Entry, wholeRange } from './entry.ts';
import type { TextEdit } from './problem.ts';
import { entryOf } from './read.ts';

type Source = { text: string; root: Entry };

/** How long a line may become. */
const LONGEST = 120;

/** The edit that writes what stands in braces or brackets on lines of its own; nothing where that may lose something. */
export function onLines({ text, root }: Source, entry: Entry): TextEdit | undefined {
  const parent = entryOf({ root }, entry.path.slice(0, -1));
  if (!entry.flow || !parent || parent.flow || entry.inherited || entry.anchored) return undefined;
  const pieces = entry.children.map((child) => pieceOf(text, child));
  if (pieces.length === 0 || holdsMore(text, entry) || pieces.some((piece) => /[\r\n]/.test(piece))) return undefined;
  const eol = newline(text);
  const dash = entry.kind === 'list' ? '- ' : '';
  const lines = pieces.map((piece) => dash + piece);
  if (!entry.key) {
    const indent = ' '.repeat(entry.value.start - startOfLine(text, entry.value.start));
    return { ...entry.value, text: lines.join(eol + indent) };
  }
  const indent = ' '.repeat(entry.key.start - startOfLine(text, entry.key.start) + 2);
  const head = text.slice(0, entry.value.start).trimEnd().length;
  const [comment = ''] = /^[ \t]+#[^\r\n]*/.exec(text.slice(entry.value.end)) ?? [];
  const below = lines.map((line) => eol + indent + line).join('');
  return { start: head, end: entry.value.end + comment.length, text: (comment && ` ${comment.trim()}`) + below };
}

/** The edit that writes lines in braces or brackets on one line, a comment beside their key behind them; nothing where they hold others or are too long. */
export function onOneLine({ text, root }: Source, entry: Entry): TextEdit | undefined {
  const isBlock = (entry.kind === 'map' || entry.kind === 'list') && !entry.flow;
  if (!isBlock || entry.path.length === 0 || entry.inherited || entry.anchored || entry.children.length === 0)
    return undefined;
  if (entryOf({ root }, entry.path.slice(0, -1)) === undefined || holdsMore(text, entry)) return undefined;
  const written = flowOf(text, entry);
  const between = entry.key ? text.slice(entry.key.end, entry.value.start) : '';
  const [, colon = '', comment = ''] = /^(\s*:)?[ \t]*(#[^\r\n]*)?\s*$/.exec(between) ?? [];
  if (between.includes('#') && !comment) return undefined;
  const start = entry.key ? entry.key.end + colon.length : entry.value.start;
  const lead = entry.key ? ' ' : '';
  const line = start - startOfLine(text, start) + lead.length + written.length;
  const end = entry.value.start + text.slice(entry.value.start, entry.value.end).trimEnd().length;
  if (line > LONGEST || /[\r\n]/.test(written)) return undefined;
  return { start, end, text: lead + written + (comment && ` ${comment}`) };
}

/** Whether the same is said by two texts. */
export function saysTheSame(one: Entry, other: Entry): boolean {
  return JSON.stringify(plain(one)) === JSON.stringify(plain(other));
}

function flowOf(text: string, entry: Entry): string {
  if (entry.kind === 'list' && !entry.flow) return `[${entry.children.map((child) => flowOf(text, child)).join(', ')}]`;
  if (entry.kind !== 'map' || entry.flow) return text.slice(entry.value.start, entry.value.end);
  const fields = entry.children.map((child) => {
    const name = child.key ? text.slice(child.key.start, child.key.end) : '';
    return `${name}: ${flowOf(text, child)}`.trimEnd();
  });
  return `{ ${fields.join(', ')} }`;
}

function pieceOf(text: string, child: Entry): string {
  const { start, end } = wholeRange(child);
  const piece = text.slice(start, end);
  return child.kind === 'empty' && child.key && !piece.includes(':') ? `${piece}:` : piece;
}

/** Whether something in the text of an entry is no field of it: a comment, a merge, a name, a type. */
function holdsMore(text: string, { value, children }: Entry): boolean {
  const own = text.slice(value.start, value.end);
  const isTaken = (entry: Entry): boolean =>
    entry.inherited || entry.anchored !== undefined || entry.children.some(isTaken);
  return /(^|[\s,[{])[#&!]|<<|[|>][+-]?\d?\s*\n/.test(own) || children.some(isTaken);
}
