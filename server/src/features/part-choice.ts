import { type Checked, checkSheet } from '../checking/checked.ts';
import type { Choice } from '../fit/choose.ts';
import type { Placing } from '../fit/option.ts';
import { useChanges } from '../fit/slot-values.ts';
import { price } from '../report/fit-page.ts';
import { applyEdits, editsFor } from '../sheet/edit.ts';
import { entryAt } from '../sheet/entry.ts';
import type { TextEdit } from '../sheet/problem.ts';
import type { Sheet } from '../sheet/read.ts';
import { type Slot, slotAround } from '../sheet/slots.ts';
import { echo } from '../text/echo.ts';
import { tellingFigures } from './part-figures.ts';

/** A part, or parts, to pick: what it is, the figures that matter, and the edits that write it. */
export type Pick = { label: string; figures: string; detail: string; edits: readonly TextEdit[] };

/** What there is to pick for a slot, and why the rest does not do it. */
export type PickList = { slot: string; title: string; picks: readonly Pick[]; missed: readonly Omit<Pick, 'edits'>[] };

/** The slot at an offset of a sheet: the innermost whose section, or name, is there. */
export function slotUnder({ root }: Sheet, offset: number): Slot | undefined {
  return slotAround(entryAt(root, offset).path);
}

/** The options of a choice as a list to pick from; each writes its id and takes out what it replaces. */
export function pickList(checked: Checked, choice: Choice, read: (text: string) => Sheet): PickList {
  const { currency } = checked.house;
  return {
    slot: choice.slot.name,
    title: choice.slot.title,
    picks: choice.options.flatMap(({ placings, cost, margin, bestAt }) => {
      const edits = placingEdits(checked, placings, read);
      if (!edits) return [];
      const figures = placings.map(({ part }) => tellingFigures(part).join(', '));
      const detail = [
        price(cost, currency),
        ...(margin === undefined ? [] : [`least margin ${Math.round(margin * 100)} %`]),
        ...(bestAt.length > 0 ? [`best at ${bestAt.join(', ')}`] : []),
      ];
      const label = placings
        .map(({ part, from }) => (from === undefined ? part.id : `${part.id} from stage ${from + 1} on`))
        .join(', ');
      return [{ label, figures: figures.join('; '), detail: detail.join('; '), edits }];
    }),
    missed: choice.missed.map(({ part, reason }) => ({
      label: part.id,
      figures: tellingFigures(part).join(', '),
      detail: echo(reason, 200),
    })),
  };
}

/** The edits that put parts into their slots, where the text with them can be read and takes them over. */
function placingEdits(
  { sheet, house }: Checked,
  placings: readonly Placing[],
  read: (text: string) => Sheet,
): readonly TextEdit[] | undefined {
  const own = sheet.parts?.own ?? sheet.values;
  const changes = placings.flatMap(({ slot, part, from }) => useChanges(own, slot, part, from));
  const edits = editsFor(sheet, changes);
  if (!edits) return undefined;
  const after = checkSheet(read(applyEdits(sheet.text, edits)), house).sheet;
  const isTaken = placings.every(({ slot, part, from }) =>
    after.parts?.taken.some((one) => one.slot === slot && one.stage === from && one.part?.id === part.id),
  );
  return isTaken && (!after.broken || sheet.broken) ? edits : undefined;
}
