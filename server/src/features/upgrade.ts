import { type Checked, checkText } from '../checking/checked.ts';
import { applyEdits, type Change, editsFor } from '../sheet/edit.ts';
import type { Entry } from '../sheet/entry.ts';
import { NEWEST_FORMAT } from '../sheet/format.ts';
import type { TextEdit } from '../sheet/problem.ts';
import { entryOf } from '../sheet/read.ts';
import { isFormerName, meantField } from '../sheet/unknown-field.ts';
import type { Range } from '../text/place.ts';

/** Where the version of the format stands, in a sheet of an older one. */
export function olderFormat({ sheet }: Checked): Range | undefined {
  const format = entryOf(sheet, ['format']);
  const isOlder = typeof format?.scalar === 'number' && format.scalar < NEWEST_FORMAT && !sheet.broken;
  return format && isOlder ? { start: format.key?.start ?? format.value.start, end: format.value.end } : undefined;
}

/** The title of the offer. */
export const UPGRADE = `Upgrade the sheet to format ${NEWEST_FORMAT}, every value meaning what it did`;

/**
 * The edits that bring a sheet to the newest format: fields by their names of today, and where power was meant as driven,
 * that said. None where they would not keep the meaning.
 */
export function upgradeEdits(checked: Checked): readonly TextEdit[] {
  if (!olderFormat(checked)) return [];
  const renamed = namesOfToday(checked.sheet.root);
  const changes: Change[] = [{ set: ['format'], to: NEWEST_FORMAT }, ...conditions(checked)];
  const set = editsFor(checked.sheet, changes);
  if (!set) return [];
  const edits = [...renamed, ...set].toSorted((one, other) => one.start - other.start);
  const after = checkText(applyEdits(checked.sheet.text, edits), checked.house);
  return after.sheet.problems.length <= checked.sheet.problems.length && !after.sheet.broken ? edits : [];
}

/** Every field that has another name now, by that name. */
function namesOfToday(entry: Entry): TextEdit[] {
  return entry.children.flatMap((inner) => {
    const name = String(inner.path.at(-1));
    const now = inner.key && !inner.schema && !inner.inherited ? meantField(entry, name) : undefined;
    if (inner.key && now && isFormerName(entry, name, now)) return [{ ...inner.key, text: now }];
    return namesOfToday(inner);
  });
}

/** In format 1 every power is meant as driven. */
function conditions({ plan, sheet }: Checked): Change[] {
  return plan.flatMap(({ index, sheet: { stage } }) => {
    const isStated = entryOf(sheet, ['stages', index, 'power']) !== undefined;
    if (!isStated || stage['power-condition']) return [];
    return [{ set: ['stages', index, 'power-condition'], to: 'as-driven' }];
  });
}
