import { type Entry, entryAt } from '../../sheet/entry.ts';
import type { Path } from '../../sheet/path.ts';
import { entryOf, type Sheet } from '../../sheet/read.ts';
import { difference } from '../../text/difference.ts';
import { quoted } from '../../text/echo.ts';
import { askedOf } from '../questions.ts';
import { sheetWith } from '../write-answer.ts';
import type { Action, Asked } from './action.ts';

/** So many fields are inserted at once; more would bury what is there. */
const MOST_FIELDS = 12;

/** The fields that are still asked for in the section at the cursor, left empty. */
export function missingInserted({ checked, range, read }: Asked): Action[] {
  const { sheet } = checked;
  const section = sectionAt(sheet, range.start);
  if (!section) return [];
  const isIn = (place: Path) => section.path.every((step, index) => place[index] === step);
  const places = askedOf(checked)
    .map(({ place }) => place)
    .filter((place) => isIn(place) && !entryOf(sheet, place))
    .slice(0, MOST_FIELDS);
  if (places.length === 0) return [];
  let filled: Sheet | undefined = sheet;
  for (const place of places) filled = filled && sheetWith(filled, place, null, read);
  if (!filled) return [];
  const what = places.length === 1 ? 'the field' : `the ${places.length} fields`;
  const title = `Insert ${what} still asked for in ${quoted(String(section.path.at(-1)))}`;
  return [{ title, kind: 'insert', edits: difference(sheet.text, filled.text) }];
}

/** The innermost section with a name around an offset. */
function sectionAt(sheet: Sheet, offset: number): Entry | undefined {
  const { path } = entryAt(sheet.root, offset);
  for (let length = path.length; length > 0; length--) {
    const entry = entryOf(sheet, path.slice(0, length));
    const isSection = entry?.key && !entry.inherited && (entry.kind === 'map' || entry.kind === 'empty');
    if (isSection && entry.schema?.properties) return entry;
  }
  return undefined;
}
