import { applyEdits, type Change, editsFor, type NewValue } from '../sheet/edit.ts';
import { isUnknown } from '../sheet/entry.ts';
import { NEWEST_FORMAT } from '../sheet/format.ts';
import type { Path } from '../sheet/path.ts';
import type { TextEdit } from '../sheet/problem.ts';
import { entryOf, type Sheet } from '../sheet/read.ts';

type Read = (text: string) => Sheet;

/**
 * A sheet with a value at a place, or with nothing there: not known yet. What is missing around the place is begun, each
 * section on lines of its own; an empty text gets its format. Nothing where the text has no room for it.
 */
export function sheetWith(sheet: Sheet, place: Path, value: NewValue, read: Read): Sheet | undefined {
  let current: Sheet | undefined = sheet;
  for (const change of changesFor(sheet, place, value)) {
    const edits: TextEdit[] | undefined = current && editsFor(current, [change]);
    current = current && edits && read(applyEdits(current.text, edits));
  }
  return current;
}

function changesFor(sheet: Sheet, place: Path, value: NewValue): Change[] {
  const isNew = sheet.root.children.length === 0;
  return [...(isNew ? [{ set: ['format'], to: NEWEST_FORMAT }] : []), ...changesAt(sheet, place, value)];
}

function changesAt(sheet: Sheet, place: Path, value: NewValue): Change[] {
  const [section, item, ...inner] = place;
  if (section === 'stages' && typeof item === 'number' && isMissing(sheet, [section, item])) {
    const stage = inner.reduceRight<NewValue>((to, step) => ({ [step]: to }), value);
    if (!isMissing(sheet, [section])) return [{ set: [section, item], to: stage }];
    return [
      { set: [section], to: null },
      { set: [section], to: [stage] },
    ];
  }
  const sections = place.slice(0, -1).map((_, index) => place.slice(0, index + 1));
  const begun = sections.filter((path) => !entryOf(sheet, path) && !isInBraces(sheet, path));
  return [...begun.map((path) => ({ set: path, to: null })), { set: place, to: value }];
}

function isMissing(sheet: Sheet, path: Path): boolean {
  const entry = entryOf(sheet, path);
  return !entry || isUnknown(entry);
}

/** Whether the innermost section around a path that the text has is written in braces. */
function isInBraces(sheet: Sheet, path: Path): boolean {
  for (let length = path.length - 1; length > 0; length--) {
    const entry = entryOf(sheet, path.slice(0, length));
    if (entry) return entry.flow;
  }
  return false;
}
