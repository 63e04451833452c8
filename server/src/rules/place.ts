import type { StageAnalysis } from '../analysis/analysis.ts';
import type { Change } from '../sheet/edit.ts';
import type { Path } from '../sheet/schema.ts';
import type { PlannedRepair } from './finding.ts';
import type { Draft, Repair } from './rule.ts';

/** A draft with the stage it was found in. */
export type Found = { draft: Draft; stage: StageAnalysis };

/** Where the text says what holds at a path of the stage's sheet. */
export function placeOf(path: string, stage: StageAnalysis): Path {
  const steps = pathOf(path);
  return steps[0] === 'stage' ? ['stages', stage.index, ...steps.slice(1)] : stage.place(steps);
}

/** A path written with points; numbers are places in a list. */
export function pathOf(path: string): Path {
  return path.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));
}

/** A repair made in the text that holds in the stage. */
export function planned(
  repair: Repair,
  stage: StageAnalysis,
  place = (path: string) => placeOf(path, stage),
): PlannedRepair {
  const { title, safe = false, shows } = repair;
  return { title, changes: changesOf(repair, place), safe, stage: stage.index, ...(shows && { shows }) };
}

/** The changes of a repair at the places the text has for them. */
export function changesOf({ set = {}, remove = [] }: Repair, place: (path: string) => Path): Change[] {
  return [
    ...Object.entries(set).map(([path, to]) => ({ set: place(path), to })),
    ...remove.map((path) => ({ remove: place(path) })),
  ];
}
