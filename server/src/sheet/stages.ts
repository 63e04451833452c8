import type { BuildSheet, Stage } from '../generated/build-sheet.ts';
import { type FieldPath, inChanges, inStage, isFields, type Path, stepsOf, valueAt } from './path.ts';
import { mayBeUnread } from './unread.ts';

/** The sheet as it is in one stage: its own values with the changes of this and the earlier stages. */
export type StageSheet = {
  index: number;
  name: string;
  stage: Stage;
  values: Partial<BuildSheet>;
  /** The last stage up to this one without a blower. */
  natural: (Stage & { index: number }) | undefined;
  /** Where the text says what holds at this field in this stage: in a stage's changes or in the sheet itself. */
  placeOf: (path: FieldPath) => Path;
  /** Whether this field, which the stage does not have, may stand in a part of the text that could not be read. */
  isUnread: (path: FieldPath) => boolean;
  /** Whether all of the text could be read. */
  isWhole: boolean;
};

/**
 * Every stage of a sheet in order; a sheet without stages is one stage as it stands. `unread` are the parts of its text
 * that could not be read.
 */
export function stagesOf(sheet: Partial<BuildSheet>, unread: readonly Path[] = []): StageSheet[] {
  let values = sheet;
  let natural: StageSheet['natural'];
  const changed: number[] = [];
  const stages: Stage[] = sheet.stages?.length ? sheet.stages : [{}];
  return stages.map((stage, index) => {
    if (stage.changes) {
      values = merged(values, stage.changes) as Partial<BuildSheet>;
      changed.unshift(index);
    }
    const owners = [...changed];
    if (!stage.induction || stage.induction === 'natural') natural = { ...stage, index };
    return {
      index,
      name: stage.name ?? `stage ${index + 1}`,
      stage,
      values,
      natural,
      placeOf: placesOf(stages, index, owners),
      isWhole: unread.length === 0,
      isUnread: (path) =>
        path.startsWith('stages.')
          ? mayBeUnread(sheet, unread, inStage(index, path))
          : mayBeUnread(sheet, unread, stepsOf(path)) ||
            owners.some((owner) => mayBeUnread(sheet, unread, inChanges(owner, path))),
    };
  });
}

/** Places are looked up once a field; most sheets have one place for all stages. */
function placesOf(stages: readonly Stage[], index: number, owners: readonly number[]): StageSheet['placeOf'] {
  const known = new Map<FieldPath, Path>();
  return (path) => {
    let place = known.get(path);
    if (!place) {
      const steps = stepsOf(path);
      const owner = owners.find((later) => valueAt(stages[later]?.changes, steps) !== undefined);
      place = steps[0] === 'stages' ? inStage(index, path) : owner === undefined ? steps : inChanges(owner, path);
      known.set(path, place);
    }
    return place;
  };
}

const known = new WeakMap<object, WeakMap<object, object>>();

/** Fields with others over them; of the same two the same object. */
export function merged(below: unknown, above: unknown): unknown {
  if (!isFields(below) || !isFields(above)) return above;
  const before = known.get(below)?.get(above);
  if (before) return before;
  const result: Record<string, unknown> = { ...below };
  for (const [name, value] of Object.entries(above)) result[name] = merged(below[name], value);
  if (!known.has(below)) known.set(below, new WeakMap());
  known.get(below)?.set(above, result);
  return result;
}
