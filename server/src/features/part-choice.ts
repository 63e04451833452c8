import { type Checked, checkSheet } from '../checking/checked.ts';
import type { Choice } from '../fit/choose.ts';
import { completed } from '../fit/completed.ts';
import { costOfPlacings, type Placing } from '../fit/option.ts';
import { useChanges } from '../fit/slot-values.ts';
import type { Together } from '../fit/together.ts';
import { price } from '../report/fit-page.ts';
import { applyEdits, type Change, editsFor } from '../sheet/edit.ts';
import { entryAt } from '../sheet/entry.ts';
import { inChanges, valueAt } from '../sheet/path.ts';
import type { TextEdit } from '../sheet/problem.ts';
import { entryOf, type Sheet } from '../sheet/read.ts';
import { isFitted } from '../sheet/schema.ts';
import type { ShelfPart } from '../sheet/shelf.ts';
import { type Slot, slotAround } from '../sheet/slots.ts';
import { echo } from '../text/echo.ts';
import { tellingFigures } from './part-figures.ts';

/** A part, or parts, to pick: what it is, the figures that matter, and the edits that write it. */
export type Pick = Told & { edits: readonly TextEdit[] };

type Told = { label: string; figures: string; detail: string };
type Found = Told & { edits: readonly TextEdit[] | undefined };

/** What there is to pick for a slot, why the rest does not do it, and how many parts time was up for. */
export type PickList = {
  slot: string;
  title: string;
  picks: readonly Pick[];
  missed: readonly Told[];
  untried: number;
};

/** The slot at an offset of a sheet: the innermost whose section, or name, is there. */
export function slotUnder({ root }: Sheet, offset: number): Slot | undefined {
  return slotAround(entryAt(root, offset).path);
}

/** The options of a choice as a list to pick from; each writes its id and takes out what it replaces. */
export function pickList(checked: Checked, choice: Choice, read: (text: string) => Sheet): PickList {
  const { currency } = checked.house;
  const found = choice.options.map(({ placings, cost, margin, bestAt }) => {
    const figures = placings.map(({ part }) => tellingFigures(part).join(', '));
    const detail = [
      price(cost, currency),
      ...(margin === undefined ? [] : [`least margin ${Math.round(margin * 100)} %`]),
      ...(bestAt.length > 0 ? [`best at ${bestAt.join(', ')}`] : []),
    ];
    const label = placings
      .map(({ part, from }) => (from === undefined ? part.id : `${part.id} from stage ${from + 1} on`))
      .join(', ');
    return {
      label,
      figures: figures.join('; '),
      detail: detail.join('; '),
      edits: placingEdits(checked, placings, read),
    };
  });
  const missed = choice.missed.map(({ part, reason }) => ({
    label: part.id,
    figures: tellingFigures(part).join(', '),
    detail: echo(reason, 200),
  }));
  return {
    slot: choice.slot.name,
    title: choice.slot.title,
    ...sortedOut(found, missed),
    untried: choice.untried,
  };
}

/** Parts for every open slot as a list to pick from, the cheapest first: each way out of the fuel supply with all other parts. */
export function pickListOfAll(
  checked: Checked,
  { alone, supply, choices, without }: Together,
  read: (text: string) => Sheet,
): PickList {
  const { currency } = checked.house;
  const ways = supply.length > 0 ? supply.map(({ placings }) => placings) : [[]];
  const found = ways
    .map((way) => [...alone, ...way])
    .filter(({ length }) => length > 0)
    .map((placings) => ({
      label: `${placings.length} ${placings.length === 1 ? 'part' : 'parts'}`,
      figures: price(costOfPlacings(completed(checked).values, placings), currency),
      detail: placings.map(({ part }) => part.id).join(', '),
      edits: placingEdits(checked, placings, read),
    }));
  const missed = without.map((slot) => {
    const nearest = choices.find((choice) => choice.slot === slot)?.missed[0];
    const detail = nearest
      ? `${nearest.part.id} comes nearest: ${nearest.reason}`
      : 'The catalogs have none that does it.';
    return { label: slot.title, figures: '', detail: echo(detail, 200) };
  });
  const untried = choices.reduce((sum, choice) => sum + choice.untried, 0);
  return { slot: 'all', title: 'every open part', ...sortedOut(found, missed), untried };
}

/** What can be written, and above what does not do it what does, but must be written by hand. */
function sortedOut(found: readonly Found[], missed: readonly Told[]) {
  return {
    picks: found.flatMap(({ edits, ...pick }) => (edits ? [{ ...pick, edits }] : [])),
    missed: [...found.flatMap(({ edits, ...pick }) => (edits ? [] : [byHand(pick)])), ...missed],
  };
}

function byHand({ label, figures, detail }: Told): Told {
  return {
    label,
    figures,
    detail: `Does it (${detail}), but the text leaves no place for it: write it under "use" by hand`,
  };
}

/** The edits that put parts into their slots, where the text with them can be read and takes them over. */
function placingEdits(
  { sheet, house }: Checked,
  placings: readonly Placing[],
  read: (text: string) => Sheet,
): readonly TextEdit[] | undefined {
  const own = sheet.parts?.own ?? sheet.values;
  const changes = placings.flatMap(({ slot, part, from }) => [
    ...emptyFields(sheet, slot, part, from),
    ...useChanges(own, slot, part, from),
  ]);
  const edits = editsFor(sheet, changes);
  if (!edits) return undefined;
  const after = checkSheet(read(applyEdits(sheet.text, edits)), house).sheet;
  const isTaken = placings.every(({ slot, part, from }) =>
    after.parts?.taken.some((one) => one.slot === slot && one.stage === from && one.part?.id === part.id),
  );
  return isTaken && (!after.broken || sheet.broken) ? edits : undefined;
}

/** Fields of a slot that wait for a value, and which a part that is chosen makes needless; how it is fitted stays open. */
function emptyFields(sheet: Sheet, { path, field }: Slot, { fields }: ShelfPart, from: number | undefined): Change[] {
  const section = entryOf(sheet, from === undefined ? path : inChanges(from, field));
  return (section?.children ?? []).flatMap((inner) => {
    const name = String(inner.path.at(-1));
    const isNeedless = valueAt(fields, [name]) !== undefined || (section?.schema && !isFitted(section.schema, name));
    return inner.kind === 'empty' && inner.schema && isNeedless ? [{ remove: inner.path }] : [];
  });
}
