import { type FieldSchema, root } from '../sheet/schema.ts';
import type { Shelf } from '../sheet/shelf.ts';
import type { Range } from '../text/place.ts';
import { excerpt } from './completion/excerpt.ts';
import { fieldsAt } from './completion/fields.ts';
import { placeAt } from './completion/place.ts';
import type { Proposal } from './completion/proposal.ts';
import { valuesAt } from './completion/values.ts';
import { newSheets } from './new-sheet.ts';
import { NO_RANKS, type Ranks } from './questions.ts';

export type { Proposal } from './completion/proposal.ts';

/**
 * What could be written at an offset, best first. `replace` is the stretch of one line that each proposal takes the place
 * of; it holds the offset. `incomplete` says that there is more once a letter is typed.
 */
export type Completion = { replace: Range; proposals: Proposal[]; incomplete: boolean };

/** Most characters that are parsed anew at a keystroke; beyond it nothing is offered. */
const LONGEST = 100_000;

/**
 * Fields not written yet, those that are asked for first before the others; whole sheets where there is none; choices;
 * units for the number that is typed; nothing where the value is complete.
 */
export function completionsAt(
  whole: string,
  offset: number,
  schema: FieldSchema,
  ranks: () => Ranks = () => NO_RANKS,
  shelf?: Shelf,
): Completion {
  const { text, before } = excerpt(whole, offset);
  const place = text.length > LONGEST ? undefined : placeAt(text, offset - before, schema);
  if (!place) return { replace: { start: offset, end: offset }, proposals: [], incomplete: false };
  const replace = { start: place.range.start + before, end: place.range.end + before };
  if (!place.isKey) return { replace, ...valuesAt(place, shelf) };
  const begun = place.parent.path.length === 0 && place.parent.children.length === 1 ? sheetsFor(schema) : [];
  return { replace, proposals: [...fieldsAt(place, text, ranks()), ...begun], incomplete: false };
}

/** Whole sheets to begin with, where nothing but the word that is typed stands. */
function sheetsFor(schema: FieldSchema): Proposal[] {
  if (schema !== root) return [];
  return newSheets().map(({ kind, about, text }) => ({
    label: kind,
    kind: 'sheet',
    detail: 'New build sheet',
    documentation: about,
    insert: text,
  }));
}
