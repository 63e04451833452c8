import type { Place } from '../text/place.ts';
import { kept } from './kept.ts';
import { partProblems } from './part-problems.ts';
import { isFields, type Path, valueAt } from './path.ts';
import type { Sheet } from './read.ts';
import { emptyShelf, type Shelf } from './shelf.ts';
import { type Taken, type TakenKit, takeOver } from './take-over.ts';

/** What a sheet takes over from catalogs. */
export type Parts = {
  /** The values as the sheet itself has them. */
  own: Sheet['values'];
  taken: readonly Taken[];
  kits: readonly TakenKit[];
  shelf: Shelf;
};

/** A sheet with the parts of catalogs it names, and what is wrong with them; values that are as before stay the same objects. */
export function withParts(sheet: Sheet, shelf: Shelf = emptyShelf, before?: Sheet): Sheet {
  if (sheet.parts) return sheet;
  const { values, taken, kits } = takeOver(sheet.values, shelf);
  const parts = { own: sheet.values, taken, kits, shelf };
  if (taken.length === 0 && kits.length === 0) return { ...sheet, parts };
  return {
    ...sheet,
    parts,
    values: kept(before?.values, values),
    problems: [...sheet.problems, ...partProblems(sheet, parts)],
  };
}

/** Whether everything that a sheet took over is still the same on the shelf. */
export function isUpToDate({ parts }: Sheet): boolean {
  if (!parts) return false;
  const { taken, kits, shelf, own } = parts;
  if (taken.length === 0 && kits.length === 0) return true;
  const now = takeOver(own, shelf);
  return (
    now.taken.length === taken.length &&
    now.taken.every(({ part, id }, index) => part === taken[index]?.part && id === taken[index]?.id) &&
    now.kits.every(({ isKnown, cycle }, index) => isKnown === kits[index]?.isKnown && !cycle === !kits[index]?.cycle)
  );
}

/** The part of a catalog that says what stands at a place of the sheet's values, if its text does not say it itself. */
export function takenAt(sheet: Pick<Sheet, 'parts'>, path: Path): { taken: Taken; steps: Path } | undefined {
  const { parts } = sheet;
  if (!parts || parts.taken.length === 0) return undefined;
  const within = parts.taken.filter(
    ({ section, part }) =>
      part && path.length >= section.length && section.every((step, index) => step === path[index]),
  );
  const taken = within.toSorted((one, other) => other.section.length - one.section.length)[0];
  if (!taken) return undefined;
  const steps = path.slice(taken.section.length);
  const own = valueAt(parts.own, path);
  const isOwn = own !== undefined && !(steps.length === 0 && isFields(own));
  return isOwn || (steps.length > 0 && valueAt(taken.part?.fields, steps) === undefined) ? undefined : { taken, steps };
}

/** Where a catalog says what stands at a place of the sheet. */
export function catalogPlace(sheet: Pick<Sheet, 'parts'>, path: Path): Place | undefined {
  const found = takenAt(sheet, path);
  return found && sheet.parts?.shelf.placeOf(found.taken.id, [found.taken.slot.kind, ...found.steps]);
}
