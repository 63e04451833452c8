import { applyEdits } from '../text/apply-edits.ts';
import { endOfLine, newline, nextLine, startOfLine } from '../text/lines.ts';
import type { Range } from '../text/place.ts';
import { childOf, type Entry, isUnknown } from './entry.ts';
import type { Path } from './path.ts';
import { entryOf, type Sheet } from './read.ts';
import { onLines, onOneLine } from './restyle.ts';
import { child, type FieldSchema, isFitted } from './schema.ts';
import type { Slot } from './slots.ts';

/** A sheet that names a part in place of what describes it, and the part as lines of a list of parts at the margin. */
export type Extracted = { text: string; item: string };

type Read = (text: string) => Sheet;

/** What stands beside the id of a part in a catalog, not in its section. */
const BESIDE_ID: readonly unknown[] = ['name', 'cost'];

/**
 * Takes what describes a part out of a section of a sheet, each field with its comments as they are written; what tells how
 * it sits in the car stays. Nothing where the section names a part already, or holds what does not stand by itself.
 */
export function extracted(sheet: Sheet, slot: Slot, id: string, read: Read): Extracted | undefined {
  const path: Path = slot.path;
  const { sheet: onItsLines, outermost } = overLines(sheet, path, read);
  const section = entryOf(onItsLines, path);
  if (section?.kind !== 'map' || section.flow || !section.key || childOf(section, 'use')) return undefined;
  if (isShared(section)) return undefined;
  const pieces = section.children.map((field) => ({ field, lines: linesOf(onItsLines.text, section, field) }));
  const moving = pieces.filter(({ field }) => isOfPart(section.schema, field));
  const [first] = pieces;
  if (!first?.field.key || !moving.some(({ field }) => !BESIDE_ID.includes(field.path.at(-1)))) return undefined;
  const { text } = onItsLines;
  const eol = newline(text);
  const indent = text.slice(startOfLine(text, first.field.key.start), first.field.key.start);
  const uses = { start: first.lines.start, end: first.lines.start, text: `${indent}use: ${id}${eol}` };
  const gone = moving.map(({ lines }) => ({ ...lines, text: '' }));
  const after = applyEdits(text, [uses, ...gone]);
  const written = (piece: { field: Entry; lines: Range }, to: string) =>
    indented(text.slice(piece.lines.start, piece.lines.end), indent, to, eol);
  const beside = moving.filter(({ field }) => BESIDE_ID.includes(field.path.at(-1)));
  const inside = moving.filter((piece) => !beside.includes(piece));
  const item = [
    `- id: ${id}${eol}`,
    ...beside.map((piece) => written(piece, '  ')),
    `  ${slot.kind}:${eol}`,
    ...inside.map((piece) => written(piece, '    ')),
  ];
  return { text: outermost ? onOneLineAgain(after, outermost, read) : after, item: item.join('') };
}

/** The sheet with a section, and those it stands in, on lines of their own; the outermost of those that were in braces. */
function overLines(sheet: Sheet, path: Path, read: Read): { sheet: Sheet; outermost: Path | undefined } {
  let current = sheet;
  let outermost: Path | undefined;
  for (let length = 1; length <= path.length; length++) {
    const entry = entryOf(current, path.slice(0, length));
    const edit = entry?.flow ? onLines(current, entry) : undefined;
    if (!edit) continue;
    outermost ??= path.slice(0, length);
    current = read(applyEdits(current.text, [edit]));
  }
  return { sheet: current, outermost };
}

function onOneLineAgain(text: string, path: Path, read: Read): string {
  const sheet = read(text);
  const entry = entryOf(sheet, path);
  const edit = entry && onOneLine(sheet, entry);
  return edit ? applyEdits(text, [edit]) : text;
}

/** Whether something in a section stands elsewhere as well, or comes from there. */
function isShared(entry: Entry): boolean {
  return entry.inherited || entry.anchored !== undefined || entry.children.some(isShared);
}

/** Whether a field describes the part itself, not how it is fitted. */
function isOfPart(section: FieldSchema | undefined, field: Entry): boolean {
  const name = String(field.path.at(-1));
  return section !== undefined && child(section, name) !== undefined && !isFitted(section, name);
}

/** The whole lines of a field: comments right above it, those after it on its lines, and deeper ones below. */
function linesOf(text: string, section: Entry, field: Entry): Range {
  const key = field.key ?? field.value;
  const top = nextLine(text, section.key?.end ?? 0);
  let start = startOfLine(text, key.start);
  const column = key.start - start;
  while (start > top) {
    const above = startOfLine(text, start - 1);
    if (indentOfComment(text, above) !== column) break;
    start = above;
  }
  const last = field.value.start + text.slice(field.value.start, field.value.end).trimEnd().length;
  return { start, end: belowComments(text, Math.max(last, key.end), column) };
}

/** The column of the comment that a line consists of. */
function indentOfComment(text: string, start: number): number | undefined {
  const [, indent] = /^( *)#/.exec(text.slice(start, endOfLine(text, start))) ?? [];
  return indent?.length;
}

function indented(lines: string, from: string, to: string, eol: string): string {
  return lines
    .split(/\r\n|\n|\r/)
    .filter((line, index, all) => line !== '' || index < all.length - 1)
    .map((line) =>
      line.trim() === '' ? eol : to + (line.startsWith(from) ? line.slice(from.length) : line.trimStart()) + eol,
    )
    .join('');
}

/** A catalog with one more part after the others; nothing where what stands in its list would not stand on lines. */
export function withItem(
  catalog: Sheet<unknown>,
  item: string,
  read: (text: string) => Sheet<unknown>,
): string | undefined {
  const { text } = catalog;
  const eol = newline(text);
  const parts = entryOf(catalog, ['parts']);
  if (!parts) {
    const format = entryOf(catalog, ['format']) ? '' : `format: 1${eol}`;
    return withLines(text, text.length, `${format}parts:${eol}${linesAt('  ', item, eol)}`);
  }
  if (!parts.key) return undefined;
  if (isUnknown(parts) || parts.children.length === 0) return withFirst(text, parts.key, parts.value, item);
  if (parts.flow) {
    const edit = onLines(catalog, parts);
    return edit && withItem(read(applyEdits(text, [edit])), item, read);
  }
  return withAnother(text, parts, item);
}

/** A first item under a key, behind the comments that stand there; what was its value goes. */
function withFirst(text: string, key: Range, value: Range, item: string): string {
  const head = key.end + text.slice(key.end, value.start).trimEnd().length;
  const without = text.slice(0, head) + text.slice(Math.max(head, value.end));
  return withLines(without, belowComments(without, head, 0), linesAt('  ', item, newline(text)));
}

function withAnother(text: string, parts: Entry, item: string): string {
  const last = parts.children.at(-1) ?? parts;
  const eol = newline(text);
  const indent = ' '.repeat(parts.value.start - startOfLine(text, parts.value.start));
  const written = last.value.start + text.slice(last.value.start, last.value.end).trimEnd().length;
  const isSpaced = parts.children.length > 1 && /(\r\n|\n|\r)[ \t]*\1 *- $/.test(text.slice(0, last.value.start));
  const lines = (isSpaced ? eol : '') + linesAt(indent, item, eol);
  return withLines(text, belowComments(text, written, indent.length), lines);
}

/** Where the lines below an offset begin that are no comment deeper than a column. */
function belowComments(text: string, offset: number, column: number): number {
  let at = nextLine(text, offset);
  while (at < text.length && (indentOfComment(text, at) ?? 0) > column) at = nextLine(text, at);
  return at;
}

function linesAt(indent: string, item: string, eol: string): string {
  return item.replaceAll(/\r\n|\n/g, eol).replaceAll(/^(?=.)/gm, indent);
}

/** A text with lines put in where one begins, or behind the last. */
function withLines(text: string, at: number, lines: string): string {
  const before = text.slice(0, at);
  return before + (before === '' || /[\r\n]$/.test(before) ? '' : newline(text)) + lines + text.slice(at);
}
