import { plain } from '../../sheet/compose.ts';
import { type Change, editsFor, type NewValue } from '../../sheet/edit.ts';
import { type Entry, entryAt, isUnknown } from '../../sheet/entry.ts';
import { changedIn, type Path, unchanged } from '../../sheet/path.ts';
import { entryOf } from '../../sheet/read.ts';
import { quoted } from '../../text/echo.ts';
import type { Action, Asked } from './action.ts';

/** Sections that a stage cannot change. */
const WHOLE: ReadonlySet<unknown> = new Set(['format', 'title', 'stages', 'silence', 'notes', 'handover']);

/** For so many stages it is offered. */
const MOST_STAGES = 6;

/** A field at the cursor among what a later stage changes, with its present value, to be changed there. */
export function intoStages({ checked, range }: Asked): Action[] {
  const { sheet, plan } = checked;
  const entry = entryAt(sheet.root, range.start);
  const [section] = entry.path;
  if (!isChangeable(entry) || WHOLE.has(section) || String(section).startsWith('x-')) return [];
  return plan.slice(1, 1 + MOST_STAGES).flatMap(({ index, name }) => {
    const set = changedIn(index, entry.path);
    if (entryOf(sheet, set)) return [];
    return made(sheet, `Change it in stage ${quoted(name)}`, [{ set, to: plain(entry) as NewValue }]);
  });
}

/** A value that a stage changes, for the whole sheet instead. */
export function outOfStage({ checked, range }: Asked): Action[] {
  const { sheet } = checked;
  const entry = entryAt(sheet.root, range.start);
  const { place, stage } = unchanged(entry.path);
  if (!isChangeable(entry) || stage < 0 || place.length === 0) return [];
  const change = [{ set: place, to: plain(entry) as NewValue }, { remove: emptied(sheet, entry.path) }];
  return made(sheet, 'Take it for the whole sheet, not for this stage alone', change);
}

/** The path of the outermost section among a stage's changes that holds nothing else. */
function emptied(sheet: { root: Entry }, path: Path): Path {
  const around = path.slice(0, -1);
  const isAlone = unchanged(around).stage >= 0 && entryOf(sheet, around)?.children.length === 1;
  return isAlone ? emptied(sheet, around) : path;
}

/** Whether the cursor is on a field with a value of its own, and not in a list. */
function isChangeable(entry: Entry): boolean {
  const { place } = unchanged(entry.path);
  const isField = entry.key !== undefined && place.every((step) => typeof step === 'string');
  return isField && entry.kind !== 'map' && !isUnknown(entry) && !entry.inherited;
}

function made(sheet: { text: string; root: Entry }, title: string, changes: readonly Change[]): Action[] {
  const edits = editsFor(sheet, changes);
  return edits ? [{ title, kind: 'move', edits }] : [];
}
