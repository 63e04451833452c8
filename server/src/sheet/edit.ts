import { endOfLine, newline, startOfLine } from '../text/lines.ts';
import { type Entry, innerRange, pathText, wholeRange } from './entry.ts';
import type { TextEdit } from './problem.ts';
import { entryOf } from './read.ts';
import type { Path } from './schema.ts';
import { block, flow, isNested, type NewValue, scalar } from './written.ts';

export { applyEdits } from '../text/apply-edits.ts';
export type { NewValue } from './written.ts';

/** A change of one field of a sheet, by its path. */
export type Change = { set: Path; to: NewValue } | { remove: Path };

/** Of the same changes, as texts of paths: `removed` the fields that go, `filled` the sections that get new ones. */
type Source = { text: string; root: Entry; removed?: ReadonlySet<string>; filled?: ReadonlySet<string> };

/**
 * The smallest edits of the text that make the changes; comments, order, quoting and line endings around them stay.
 * Nothing, if a change has no place in the text, such as a field inside a list that is not there.
 */
export function editsFor({ text, root }: Source, changes: readonly Change[]): TextEdit[] | undefined {
  const removed = new Set(changes.flatMap((change) => ('remove' in change ? [pathText(change.remove)] : [])));
  const together = grouped({ text, root }, changes);
  const filled = new Set(
    together.flatMap((change) =>
      'set' in change && !ownEntry(root, change.set) ? [pathText(change.set.slice(0, -1))] : [],
    ),
  );
  const source = { text, root, removed, filled };
  const edits: TextEdit[] = [];
  for (const change of together) {
    if ('remove' in change && removedBefore(source, change.remove)) continue;
    const edit = 'set' in change ? setEdit(source, change.set, change.to) : removeEdit(source, change.remove);
    if (!edit) return undefined;
    edits.push(edit);
  }
  const sorted = edits.toSorted(
    (one, other) => one.start - other.start || one.end - other.end || leadOf(other) - leadOf(one),
  );
  const overlap = sorted.some((edit, index) => edit.start < (sorted[index - 1]?.end ?? 0));
  return overlap ? undefined : sorted;
}

/** Of several insertions at one place, the deeper indented come first. */
function leadOf({ text }: TextEdit): number {
  return /^\s*/.exec(text)?.[0].length ?? 0;
}

/** Fields that are missing under one missing parent are inserted together, as one value of that parent. */
function grouped(source: Source, changes: readonly Change[]): Change[] {
  const result: Change[] = [];
  const insertions: { at: Path; values: { [key: string]: NewValue } }[] = [];
  for (const change of changes) {
    const at = 'set' in change ? missingFrom(source, change.set) : undefined;
    if (!at || !('set' in change)) {
      result.push(change);
      continue;
    }
    const parent = at.slice(0, -1);
    const steps = change.set.slice(parent.length);
    if (steps.some((step) => typeof step === 'number')) {
      result.push(change);
      continue;
    }
    let insertion = insertions.find(({ at: known }) => samePath(known, parent));
    if (!insertion) {
      insertion = { at: parent, values: {} };
      insertions.push(insertion);
    }
    deepSet(insertion.values, steps as string[], change.to);
  }
  for (const { at, values } of insertions) {
    const names = Object.keys(values);
    if (names.length === 1)
      result.push({ set: [...at, names[0] as string], to: values[names[0] as string] as NewValue });
    else result.push({ set: [...at, MANY], to: values });
  }
  return result;
}

/** Stands for several new fields of one mapping. */
const MANY = '\u0000many';

function deepSet(target: { [key: string]: NewValue }, steps: string[], to: NewValue) {
  const [step, ...rest] = steps;
  if (step === undefined) return;
  if (rest.length === 0) target[step] = to;
  else {
    const inner = target[step];
    const map = inner && typeof inner === 'object' && !Array.isArray(inner) ? inner : {};
    target[step] = map;
    deepSet(map, rest, to);
  }
}

/** The shortest part of the path that the text does not have as its own. */
function missingFrom(source: Source, path: Path): Path | undefined {
  for (let length = 1; length <= path.length; length++) {
    const entry = entryOf(source, path.slice(0, length));
    if (!entry || entry.inherited) return path.slice(0, length);
    if (entry.kind === 'empty' && length < path.length) return undefined;
  }
  return undefined;
}

/** The entry of a field that the text has as its own. */
function ownEntry(root: Entry, path: Path): Entry | undefined {
  const entry = entryOf({ root }, path);
  return entry?.inherited ? undefined : entry;
}

function setEdit(source: Source, path: Path, to: NewValue): TextEdit | undefined {
  const entry = ownEntry(source.root, path);
  if (entry) return replaceEdit(source, entry, to);
  const parent = entryOf(source, path.slice(0, -1));
  const step = path.at(-1);
  if (!parent || step === undefined) return emptyParentEdit(source, path, to);
  if (typeof step === 'number') return parent.kind === 'list' ? itemEdit(source, parent, to) : undefined;
  const fields: [string, NewValue][] = step === MANY ? Object.entries(to as object) : [[step, to]];
  if (parent.kind === 'empty') return fillEdit(source, parent, Object.fromEntries(fields));
  if (parent.kind !== 'map') return undefined;
  return parent.flow ? flowFieldEdit(source, parent, fields) : blockFieldEdit(source, parent, fields);
}

/** `pump:` with nothing after it takes the missing steps as its value. */
function emptyParentEdit(source: Source, path: Path, to: NewValue): TextEdit | undefined {
  const step = path.at(-2);
  if (typeof step !== 'string') return undefined;
  return setEdit(source, path.slice(0, -1), { [String(path.at(-1))]: to });
}

function replaceEdit(source: Source, entry: Entry, to: NewValue): TextEdit | undefined {
  if (entry.kind === 'empty') return fillEdit(source, entry, to);
  if (isNested(to) && !entry.flow && entry.kind !== 'scalar') {
    const indent = ' '.repeat(columnOf(source.text, entry.value.start));
    const lines = block(to, indent, newline(source.text));
    return { ...trimmed(source.text, entry.value), text: lines.trimStart() };
  }
  const inner = entry.kind === 'scalar' ? innerRange(entry, source.text) : entry.value;
  const plainText = isNested(to) ? flow(to) : scalar(to);
  const keepsQuote = entry.quote && typeof to === 'string' && !to.includes(entry.quote) && !/[\\\n]/.test(to);
  return keepsQuote ? { ...inner, text: to } : { ...trimmed(source.text, entry.value), text: plainText };
}

function fillEdit(source: Source, entry: Entry, to: NewValue): TextEdit | undefined {
  if (!entry.key) return undefined;
  const colon = /^\s*:/.exec(source.text.slice(entry.key.end))?.[0].length;
  const at = entry.key.end + (colon ?? 0);
  const lead = colon ? '' : ':';
  if (!isNested(to)) return { start: at, end: at, text: `${lead} ${scalar(to)}`.trimEnd() };
  if (entryOf(source, entry.path.slice(0, -1))?.flow) return { start: at, end: at, text: `${lead} ${flow(to)}` };
  const indent = ' '.repeat(columnOf(source.text, entry.key.start) + 2);
  return { start: at, end: at, text: lead + newline(source.text) + block(to, indent, newline(source.text)) };
}

function flowFieldEdit(source: Source, parent: Entry, fields: [string, NewValue][]): TextEdit | undefined {
  const { text } = source;
  const added = fields.map(([name, to]) => `${name}: ${flow(to)}`.trimEnd()).join(', ');
  const children = ownChildren(parent);
  const last = children.at(-1);
  if (last && children.every((child) => isRemoved(source, child))) {
    const at = parent.value.start + 1;
    return text[at - 1] === '{' ? { start: at, end: at, text: ` ${added} ` } : undefined;
  }
  if (last) {
    const at = wholeRange(last).end;
    const pad = added.endsWith(':') && text[at] === '}' ? ' ' : '';
    return { start: at, end: at, text: `, ${added}${pad}` };
  }
  const { start, end } = parent.value;
  if (text[start] !== '{' || text[end - 1] !== '}') return undefined;
  const inner = text.slice(start + 1, end - 1);
  if (inner.trim() === '') return { start: start + 1, end: end - 1, text: ` ${added} ` };
  const at = start + 1 + inner.trimEnd().length;
  return inner.includes('#') ? undefined : { start: at, end: at, text: `, ${added}` };
}

function blockFieldEdit(source: Source, parent: Entry, fields: [string, NewValue][]): TextEdit | undefined {
  const { text } = source;
  const children = ownChildren(parent);
  const last = children.findLast((child) => !isRemoved(source, child));
  if (!last && children[0]?.key) return inPlaceOf(source, children[0].key.start, fields);
  if (!last?.key && parent.children.length > 0) return besideMerge(source, parent, fields);
  if (!last?.key) {
    if (parent.path.length > 0) return undefined;
    const lead = text === '' || text.endsWith('\n') ? '' : newline(text);
    return {
      start: text.length,
      end: text.length,
      text: lead + block(Object.fromEntries(fields), '', newline(text)) + newline(text),
    };
  }
  const lines = block(Object.fromEntries(fields), ' '.repeat(columnOf(text, last.key.start)), newline(text));
  const at = endOfEntryLine(text, last);
  const inner = lastInner(last).path;
  const endIsRemoved = inner.some((_, index) => source.removed?.has(pathText(inner.slice(0, index + 1))));
  if (!endIsRemoved) return { start: at, end: at, text: newline(text) + lines };
  const next = text.indexOf('\n', at) + 1 || text.length;
  return { start: next, end: next, text: next === text.length && !text.endsWith('\n') ? lines : lines + newline(text) };
}

/** Where all fields of a section go, new ones stand on the line of the first. */
function inPlaceOf({ text }: Source, start: number, fields: [string, NewValue][]): TextEdit | undefined {
  const at = startOfLine(text, start);
  const indent = text.slice(at, start);
  if (indent.trim() !== '') return undefined;
  return { start: at, end: at, text: block(Object.fromEntries(fields), indent, newline(text)) + newline(text) };
}

/** A mapping that only takes fields over gets its own after the merge. */
function besideMerge({ text }: Source, parent: Entry, fields: [string, NewValue][]): TextEdit | undefined {
  if (!text.startsWith('<<', parent.value.start)) return undefined;
  const indent = ' '.repeat(columnOf(text, parent.value.start));
  const at = endOfLine(text, trimmed(text, parent.value).end);
  return { start: at, end: at, text: newline(text) + block(Object.fromEntries(fields), indent, newline(text)) };
}

function itemEdit(source: Source, parent: Entry, to: NewValue): TextEdit | undefined {
  const { text } = source;
  const last = parent.children.at(-1);
  const written = isNested(to) ? flow(to) : scalar(to);
  if (parent.flow) {
    const at = last?.value.end ?? parent.value.start + 1;
    return { start: at, end: at, text: last ? `, ${written}` : written };
  }
  if (!last) return undefined;
  const at = endOfEntryLine(text, last);
  const indent = ' '.repeat(columnOf(text, parent.value.start));
  return { start: at, end: at, text: `${newline(text)}${indent}- ${written}` };
}

/** In braces, neighbors that are removed together go in one edit, made for the first of them. */
function removedBefore(source: Source, path: Path): boolean {
  const parent = entryOf(source, path.slice(0, -1));
  if (!parent?.flow) return false;
  const siblings = ownChildren(parent);
  const before = siblings[siblings.findIndex((sibling) => samePath(sibling.path, path)) - 1];
  return before !== undefined && isRemoved(source, before);
}

function isRemoved({ removed }: Source, { path }: Entry): boolean {
  return removed?.has(pathText(path)) ?? false;
}

function removeEdit(source: Source, path: Path): TextEdit | undefined {
  const entry = entryOf(source, path);
  const parent = entryOf(source, path.slice(0, -1));
  return entry && parent && !entry.inherited ? removalOf(source, parent, entry) : undefined;
}

/** The edit that takes an entry out; a section whose last field goes, goes with it. */
export function removalOf(source: Source, parent: Entry, entry: Entry): TextEdit | undefined {
  const { text } = source;
  const siblings = ownChildren(parent);
  const start = entry.key?.start ?? entry.value.start;
  if (parent.flow) {
    const index = siblings.indexOf(entry);
    const next = siblings.slice(index + 1).find((sibling) => !isRemoved(source, sibling));
    const before = siblings[index - 1];
    const last = siblings.at(-1) ?? entry;
    if (next) return { start, end: next.key?.start ?? next.value.start, text: '' };
    if (before) return { start: wholeRange(before).end, end: wholeRange(last).end, text: '' };
    const inner = { start: parent.value.start + 1, end: parent.value.end - 1, text: '' };
    const isAll = parent.children.length === siblings.length && /[{[]/.test(text[inner.start - 1] ?? '');
    const hasComment = siblings.length > 1 && /\s#/.test(text.slice(inner.start, inner.end));
    return isAll && !hasComment ? inner : undefined;
  }
  const end = Math.max(trimmed(text, entry.value).end, entry.key?.end ?? 0);
  const isFilled = source.filled?.has(pathText(parent.path)) ?? false;
  if (parent.children.length === 1 && !isFilled && typeof parent.path.at(-1) === 'string') {
    const head = text.slice(parent.key?.end ?? 0, start);
    return head.includes('#') ? undefined : removeEdit(source, parent.path);
  }
  if (siblings.length === 1 && !isFilled) return undefined;
  const lineStart = startOfLine(text, start);
  const lead = text.slice(lineStart, start);
  const isFirstOfItem = entry.key !== undefined && /^\s*(- +)+$/.test(lead);
  const next = siblings[siblings.indexOf(entry) + 1]?.key;
  if (isFirstOfItem && next && !text.slice(end, next.start).includes('#')) return { start, end: next.start, text: '' };
  const alone = /^\s*(- +)?$/.test(lead) && (entry.key === undefined) === lead.includes('-');
  const after = text.indexOf('\n', end);
  const lineEnd = after < 0 ? text.length : after + 1;
  return alone ? { start: lineStart, end: lineEnd, text: commentsIn(text, start, lineEnd) } : undefined;
}

/** The comments in a stretch of text that is taken away, each on a line of its own where the stretch begins. */
function commentsIn(text: string, start: number, end: number): string {
  const indent = ' '.repeat(columnOf(text, start));
  const comments = text.slice(start, end).matchAll(/(?<=\s)#.*/g);
  return [...comments].map(([comment]) => indent + comment.trimEnd() + newline(text)).join('');
}

function ownChildren(parent: Entry): Entry[] {
  return parent.children
    .filter(({ inherited }) => !inherited || parent.inherited)
    .toSorted((one, other) => (one.key?.start ?? one.value.start) - (other.key?.start ?? other.value.start));
}

/** End of the last line an entry reaches, trailing comment included. */
function endOfEntryLine(text: string, entry: Entry): number {
  return endOfLine(text, Math.max(trimmed(text, lastInner(entry).value).end, entry.key?.end ?? 0));
}

function lastInner(entry: Entry): Entry {
  const last = entry.flow || entry.kind === 'scalar' ? undefined : ownChildren(entry).at(-1);
  return last && last.value.end >= entry.value.start ? lastInner(last) : entry;
}

function trimmed(text: string, { start, end }: { start: number; end: number }) {
  const shorter = start + text.slice(start, end).trimEnd().length;
  return { start, end: shorter };
}

function columnOf(text: string, offset: number): number {
  return offset - startOfLine(text, offset);
}

function samePath(one: Path, other: Path): boolean {
  return one.length === other.length && one.every((step, index) => step === other[index]);
}
