import type { BuildSheet, Stage } from '../generated/build-sheet.ts';
import { entryOf, type Sheet } from './read.ts';
import type { Path } from './schema.ts';

/** The sheet as it is in one stage: its own values with the changes of this and the earlier stages. */
export type StageSheet = {
  index: number;
  name: string;
  stage: Stage;
  values: Partial<BuildSheet>;
  /** The last stage up to this one without a blower. */
  natural: (Stage & { index: number }) | undefined;
  /** Where the text says what holds at this path in this stage: in a stage's changes or in the sheet itself. */
  place: (path: Path) => Path;
};

/** Every stage of a sheet in order; a sheet without stages is one stage as it stands. */
export function stagesOf(sheet: Sheet): StageSheet[] {
  let values = sheet.values;
  let natural: StageSheet['natural'];
  const changed: number[] = [];
  const stages: Stage[] = sheet.values.stages?.length ? sheet.values.stages : [{}];
  return stages.map((stage, index) => {
    values = merged(values, stage.changes ?? {}) as Partial<BuildSheet>;
    if (stage.changes) changed.unshift(index);
    const owners = [...changed];
    if (!stage.induction || stage.induction === 'natural') natural = { ...stage, index };
    return {
      index,
      name: stage.name ?? `stage ${index + 1}`,
      stage,
      values,
      natural,
      place: (path) => {
        for (const later of owners) {
          const inChanges = ['stages', later, 'changes', ...path];
          if (entryOf(sheet, inChanges)) return inChanges;
        }
        return path;
      },
    };
  });
}

function merged(below: unknown, above: unknown): unknown {
  if (!isFields(below) || !isFields(above)) return above;
  const result: Record<string, unknown> = { ...below };
  for (const [name, value] of Object.entries(above)) result[name] = merged(below[name], value);
  return result;
}

function isFields(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && !('dimension' in value);
}
