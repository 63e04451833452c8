import { type FieldPath, stepsOf, valueAt } from './path.ts';
import { child, type FieldSchema, resolve, root } from './schema.ts';
import type { StageSheet } from './stages.ts';

type Only = NonNullable<FieldSchema['only']>;

const known = new Map<FieldPath, readonly Only[]>();

/**
 * Whether a field makes sense with what a stage says of the fields that decide it, such as a suction line for a pump
 * outside the tank; undefined, where one of them is not known.
 */
export function makesSense(field: FieldPath, sheet: StageSheet): boolean | undefined {
  let isDecided = true;
  for (const { field: other, is, usual } of conditionsOf(field)) {
    const value = valueIn(sheet, other as FieldPath) ?? usual;
    if (value === undefined) isDecided = false;
    else if (!is.includes(value as (typeof is)[number])) return false;
  }
  return isDecided ? true : undefined;
}

function valueIn({ stage, values }: StageSheet, field: FieldPath): unknown {
  const steps = stepsOf(field);
  return (steps[0] === 'stages' ? valueAt(stage, steps, 1) : valueAt(values, steps)) ?? undefined;
}

/** What decides a field, and each of the sections it stands in. */
function conditionsOf(field: FieldPath): readonly Only[] {
  const before = known.get(field);
  if (before) return before;
  const found: Only[] = [];
  let schema: FieldSchema | undefined = root;
  for (const step of stepsOf(field)) {
    const written: FieldSchema | undefined = schema && resolve(schema).properties?.[step];
    const inner: FieldSchema | undefined = schema && child(schema, step);
    const only = written?.only ?? inner?.only;
    if (only) found.push(only);
    schema = inner?.type === 'array' && step === 'stages' ? child(inner, 0) : inner;
  }
  known.set(field, found);
  return found;
}
