import type { StageAnalysis } from '../analysis/analysis.ts';
import type { Change } from '../sheet/edit.ts';
import type { FieldPath, Path } from '../sheet/path.ts';
import type { PlannedRepair } from './finding.ts';
import type { Address, Draft, Repair } from './rule.ts';

/** A draft with the stage it was found in. */
export type Found = { draft: Draft; stage: StageAnalysis };

/** The place in the sheet of what holds at an address in a stage. */
export function placeOf(address: Address, stage: StageAnalysis): Path {
  return typeof address === 'string' ? stage.sheet.placeOf(address) : address;
}

/** A repair at the places in the sheet that hold in the stage. */
export function planned(
  repair: Repair,
  stage: StageAnalysis,
  place = (field: FieldPath) => stage.sheet.placeOf(field),
): PlannedRepair {
  const { title, safe = false, shows } = repair;
  return { title, changes: changesOf(repair, place), safe, stage: stage.index, ...(shows && { shows }) };
}

function changesOf({ set = {}, remove = [], changes = [] }: Repair, place: (field: FieldPath) => Path): Change[] {
  return [
    ...Object.entries(set).map(([field, to]) => ({ set: place(field as FieldPath), to })),
    ...remove.map((field) => ({ remove: place(field) })),
    ...changes,
  ];
}
