import type { FieldPath } from '../generated/paths.ts';
import { type FieldSchema, type Path, schemaAt } from './schema.ts';

export type { FieldPath, Path };

const split = new Map<string, readonly string[]>();

/** The steps of a field: `fuel-system.pump` as two. */
export function stepsOf(path: FieldPath): readonly string[] {
  let steps = split.get(path);
  if (!steps) {
    steps = path.split('.');
    split.set(path, steps);
  }
  return steps;
}

/** What stands at the steps of a value, from one of them on. */
export function valueAt(value: unknown, steps: readonly (string | number)[], from = 0): unknown {
  let inner = value;
  for (let index = from; index < steps.length; index++) {
    if (typeof inner !== 'object' || inner === null) return undefined;
    inner = (inner as Record<string | number, unknown>)[steps[index] as string | number];
  }
  return inner;
}

/** Whether a value is a section with fields of its own, rather than a list, a quantity or a plain value. */
export function isFields(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && !('dimension' in value);
}

const schemas = new Map<FieldPath, FieldSchema | undefined>();

/** The schema of a field; looked up once. */
export function fieldSchema(path: FieldPath): FieldSchema | undefined {
  if (!schemas.has(path)) schemas.set(path, schemaAt(firstPlaceOf(path)));
  return schemas.get(path);
}

/** A place a field can have in a sheet: of what is in a list the first item's. */
function firstPlaceOf(path: FieldPath): Path {
  const steps = stepsOf(path);
  const isInList = path.startsWith('stages.') || path.startsWith('measured.');
  return isInList ? [steps[0] as string, 0, ...steps.slice(1)] : steps;
}

/** The place of a field of a stage itself, such as `stages.power`, in a sheet. */
export function inStage(index: number, path: FieldPath): Path {
  return ['stages', index, ...stepsOf(path).slice(1)];
}

/** The place of a field in what a stage changes. */
export function inChanges(index: number, path: FieldPath): Path {
  return changedIn(index, stepsOf(path));
}

/** The place in what a stage changes of what stands at a place of the sheet itself. */
export function changedIn(index: number, place: Path): Path {
  return ['stages', index, 'changes', ...place];
}

/** The place in the sheet itself of what a place is about, and the stage that changes it there, -1 where none does. */
export function unchanged(place: Path): { place: Path; stage: number } {
  const [section, stage, changes, ...inner] = place;
  const isChange = section === 'stages' && typeof stage === 'number' && changes === 'changes';
  return isChange ? { place: inner, stage } : { place, stage: -1 };
}

/** The field at a place, whatever stage or list item it is in: `stages[1].changes.fuel.grade` is `fuel.grade`. */
export function fieldAt(place: Path): string {
  const steps = place.filter((step) => typeof step === 'string');
  const isChange = steps[0] === 'stages' && steps[1] === 'changes' && steps.length > 2;
  return (isChange ? steps.slice(2) : steps).join('.');
}
