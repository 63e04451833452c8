import { type Entry, entryAt, isUnknown, wholeRange } from '../sheet/entry.ts';
import { changedIn, type Path, unchanged } from '../sheet/path.ts';
import { entryOf, nearestEntry } from '../sheet/read.ts';
import type { Range } from '../text/place.ts';
import type { NamedText } from './names/name-kind.ts';
import { nameAt } from './names/names.ts';

/** A place to go to: what is to be marked there, and all that belongs to it. */
export type Target = { range: Range; whole: Range };

/** Where one may go from an offset, and the stretch of text it goes out from. */
export type Targets = { from: Range; targets: Target[] };

/** Where a thing is used: where it is made or changed, or only read. */
export type Use = { range: Range; isGiven: boolean };

/**
 * Where what stands at an offset is said: a name where it is given, the value a stage changes where it held before. A value
 * that nothing stands before is said where it is.
 */
export function definitionsAt(sheet: NamedText, offset: number): Targets | undefined {
  const named = nameAt(sheet, offset);
  if (named) {
    const given = named.same.filter(({ role }) => role === 'given');
    return { from: named.here.range, targets: given.map(({ range }) => ({ range, whole: range })) };
  }
  const field = fieldUnder(sheet.root, offset);
  if (!field) return undefined;
  const places = placesOf(sheet.root, field.inner);
  const before = places.findLast(({ stage }) => stage < field.stage);
  const around = nearestEntry(sheet, field.inner);
  const found = before?.entry ?? (field.stage >= 0 && around.path.length > 0 ? around : field.entry);
  return { from: markOf(field.entry), targets: [targetOf(found)] };
}

/** Where later stages change what stands at an offset. */
export function changesAfter(sheet: NamedText, offset: number): Targets | undefined {
  const field = fieldUnder(sheet.root, offset);
  if (!field) return undefined;
  const later = placesOf(sheet.root, field.inner).filter(({ stage }) => stage > field.stage);
  return { from: markOf(field.entry), targets: later.map(({ entry }) => targetOf(entry)) };
}

/** Every place of what stands at an offset: a name and those who refer to it, a field in the sheet and in its stages. */
export function usesAt(sheet: NamedText, offset: number): Use[] {
  const named = nameAt(sheet, offset);
  if (named) return named.same.map(({ range, role }) => ({ range, isGiven: role === 'given' }));
  const field = fieldUnder(sheet.root, offset);
  if (!field) return [];
  return placesOf(sheet.root, field.inner).map(({ entry, stage }) => ({ range: markOf(entry), isGiven: stage < 0 }));
}

type Field = { entry: Entry; stage: number; inner: Path };

/** Fields that are said once for the whole sheet, or that no check reads. */
const ONCE: ReadonlySet<unknown> = new Set(['format', 'title', 'stages', 'notes', 'silence']);

/** The field whose name or value is at an offset; `stage` is the one that changes it, -1 for the sheet itself. */
function fieldUnder(root: Entry, offset: number): Field | undefined {
  const entry = entryAt(root, offset);
  const { key, value, kind, path } = entry;
  const isOn = (range: Range | undefined) => range !== undefined && range.start <= offset && offset <= range.end;
  if (!isOn(key) && !(kind === 'scalar' && isOn(value))) return undefined;
  const { place: inner, stage } = unchanged(path);
  if (stage >= 0) return inner.length > 0 ? { entry, stage, inner } : undefined;
  const [first] = path;
  return ONCE.has(first) || String(first).startsWith('x-') ? undefined : { entry, stage, inner };
}

/** The places of a field: in the sheet itself, then in the changes of its stages. */
function placesOf(root: Entry, inner: Path): { entry: Entry; stage: number }[] {
  const stages = entryOf({ root }, ['stages'])?.children.length ?? 0;
  const paths = Array.from({ length: stages }, (_, stage) => ({ stage, path: changedIn(stage, inner) }));
  return [{ stage: -1, path: inner }, ...paths].flatMap(({ stage, path }) => {
    const entry = entryOf({ root }, path);
    return entry ? [{ entry, stage }] : [];
  });
}

function targetOf(entry: Entry): Target {
  const whole = wholeRange(entry);
  const range = markOf(entry);
  const holds = whole.start <= range.start && range.end <= whole.end;
  return { range, whole: holds ? whole : range };
}

/** What is marked of a field: its value, or its name where the value is long or nothing is there. */
function markOf(entry: Entry): Range {
  return entry.kind === 'scalar' && !isUnknown(entry) ? entry.value : (entry.key ?? entry.value);
}
