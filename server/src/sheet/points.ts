import { type FieldPath, fieldSchema, stepsOf } from './path.ts';

const known = new Map<FieldPath, boolean>();

/** Whether a field, or a section it stands in, is a point of careful installation, asked for after all that decides parts. */
export function isPoint(field: FieldPath): boolean {
  const before = known.get(field);
  if (before !== undefined) return before;
  const steps = stepsOf(field);
  const found = steps.some((_, index) => fieldSchema(steps.slice(0, index + 1).join('.') as FieldPath)?.point);
  known.set(field, found);
  return found;
}
