import { type Checked, checkSheet } from '../checking/checked.ts';
import { problemIdentity } from '../checking/identity.ts';
import type { Rule } from '../checking/rule.ts';
import { useChanges } from '../fit/slot-values.ts';
import { comparisonOf } from '../report/comparison.ts';
import type { NamedComparison } from '../report/comparison-page.ts';
import { applyEdits, type Change, editsFor, type NewValue } from '../sheet/edit.ts';
import { unitsIn } from '../sheet/house.ts';
import { type Path, unchanged } from '../sheet/path.ts';
import { entryOf, type Sheet } from '../sheet/read.ts';
import { slotAt } from '../sheet/slots.ts';
import { valueOfText } from '../sheet/value-text.ts';
import { difference } from '../text/difference.ts';
import { echo, quoted } from '../text/echo.ts';
import type { TextEdit } from '../text/place.ts';
import type { Steps } from '../text/steps.ts';
import { placeTold } from './place-told.ts';
import { sheetWith } from './write-answer.ts';

/** Another value for a field, or the id of another part for what a part can stand for; an empty value takes the field out. */
export type Setting = { field: string; value: string };

/** A sheet with some fields set otherwise: what that does, and the edits that would write it; or why it cannot be tried. */
export type Tried = { settings: readonly Setting[] } & (
  | { comparison: NamedComparison; checked: Checked; edits: readonly TextEdit[] }
  | { refusal: string }
);

type Read = (text: string) => Sheet;

/** What a sheet comes to with some fields set otherwise, all of them together. The sheet itself stays as it is. */
export function* triedWith(
  checked: Checked,
  settings: readonly Setting[],
  read: Read,
  rules: readonly Rule[],
): Steps<Tried> {
  const set = setOtherwise(checked, settings, read, rules);
  if ('refusal' in set) return { settings, ...set };
  const comparison = yield* comparisonOf(checked, set.checked, rules);
  const values = {
    values: set.checked.sheet.values,
    valuesBefore: checked.sheet.values,
    units: unitsIn(set.checked.house),
  };
  return { settings, ...set, comparison: { ...comparison, ...values } };
}

/** A sheet as it is checked with some fields set otherwise, and the edits that would write it; or why it cannot be tried. */
export function setOtherwise(
  checked: Checked,
  settings: readonly Setting[],
  read: Read,
  rules: readonly Rule[],
): { checked: Checked; edits: readonly TextEdit[] } | { refusal: string } {
  let sheet: Sheet = checked.sheet;
  for (const { field, value } of settings) {
    const set = withSetting({ ...checked, sheet }, field, value, read);
    if ('refusal' in set) return set;
    sheet = set.sheet;
  }
  const after = checkSheet(sheet, checked.house, checked, rules);
  const problem = newProblem(checked.sheet, after.sheet);
  if (problem === undefined) return { checked: after, edits: difference(checked.sheet.text, sheet.text) };
  const set = settings.map(({ field, value }) => `${echo(field)} = ${echo(value)}`).join(', ');
  return { refusal: `${set} does not hold: ${problem}` };
}

type Set = { sheet: Sheet } | { refusal: string };

function withSetting(checked: Checked, field: string, text: string, read: Read): Set {
  const { sheet } = checked;
  const told = placeTold(field, sheet.values);
  if ('refusal' in told) return told;
  const value = valueOfText(text);
  if (value === undefined) return { refusal: `${quoted(text)} cannot be written as a value of ${quoted(field)}.` };
  const changes = partChanges(checked, told.place, value) ?? removal(sheet, told.place, value);
  if (!changes) {
    const written = sheetWith(sheet, told.place, value, read);
    return written ? { sheet: written } : { refusal: `The sheet has no room for ${quoted(field)}.` };
  }
  const edits = editsFor(sheet, changes);
  return edits
    ? { sheet: read(applyEdits(sheet.text, edits)) }
    : { refusal: `${quoted(field)} cannot be changed there.` };
}

/** The changes that put a part of the catalogs into a slot, where a slot and the id of such a part are told. */
function partChanges({ sheet, house }: Checked, place: Path, value: NewValue): Change[] | undefined {
  const slot = slotAt(place.at(-1) === 'use' ? place.slice(0, -1) : place);
  const part = slot && typeof value === 'string' ? house.shelf?.part(value) : undefined;
  if (!slot || part?.kind !== slot.kind) return undefined;
  const { stage } = unchanged(place);
  return useChanges(sheet.parts?.own ?? sheet.values, slot, part, stage < 0 ? undefined : stage);
}

function removal(sheet: Sheet, place: Path, value: NewValue): Change[] | undefined {
  if (value !== null) return undefined;
  return entryOf(sheet, place) ? [{ remove: place }] : [];
}

/** What is wrong with the text, or with what it takes over, that was not before. */
function newProblem(before: Sheet, after: Sheet): string | undefined {
  const known = new Set(before.problems.map((problem) => problemIdentity(before, problem)));
  return after.problems.find((problem) => problem.severity === undefined && !known.has(problemIdentity(after, problem)))
    ?.message;
}
