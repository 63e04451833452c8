import { applyEdits } from '../../text/apply-edits.ts';
import type { Action, Asked } from './action.ts';
import { missingInserted } from './insert-missing.ts';
import { intoStages, outOfStage } from './move-stage.ts';
import { restyled } from './restyle.ts';
import { inOtherUnits } from './units.ts';

/** What can be done to a sheet at a place, one function a kind of action. */
const kinds: readonly ((asked: Asked) => Action[])[] = [
  missingInserted,
  inOtherUnits,
  restyled,
  intoStages,
  outOfStage,
];

/** The actions for a stretch of a sheet, but for those that would leave more wrong with its text. */
export function actionsAt(asked: Asked): Action[] {
  const { sheet } = asked.checked;
  if (sheet.broken) return [];
  return kinds
    .flatMap((kind) => kind(asked))
    .filter(({ edits }) => asked.read(applyEdits(sheet.text, edits)).problems.length <= sheet.problems.length);
}
