import type { BuildSheet } from '../generated/build-sheet.ts';
import { isQuantity } from '../units/quantity.ts';
import { readQuantity } from '../units/read.ts';
import type { Change, NewValue } from './edit.ts';
import { isInRange } from './read-values.ts';
import { child, type FieldSchema, type Path, resolve, schemaAt } from './schema.ts';

/**
 * The values of a sheet with changes made, as reading the changed text would give them; what is not changed stays the
 * same object. Nothing where a change has no place or writes what the field does not take.
 */
export function changedValues(
  values: Partial<BuildSheet>,
  changes: readonly Change[],
): Partial<BuildSheet> | undefined {
  let changed: unknown = values;
  for (const change of backwards(changes)) {
    if ('remove' in change) changed = without(changed, change.remove);
    else {
      const schema = schemaAt(change.set);
      const value = schema && plainValue(change.to, schema);
      if (value === undefined) return undefined;
      changed = withValue(changed, change.set, value);
    }
    if (changed === undefined) return undefined;
  }
  return changed as Partial<BuildSheet>;
}

/** Settings first; of the items of a list the last is removed first, so that the others keep their number. */
function backwards(changes: readonly Change[]): Change[] {
  const removals = changes.filter((change) => 'remove' in change);
  return [...changes.filter((change) => 'set' in change), ...removals.toReversed()];
}

/** A value as written by a repair, as reading gives it. */
function plainValue(written: NewValue, field: FieldSchema): unknown {
  const schema = resolve(field);
  if (written === null) return undefined;
  if (schema.dimension) {
    const read = readQuantity(String(written), schema.dimension);
    return isQuantity(read) && isInRange(read, schema) ? read : undefined;
  }
  if (Array.isArray(written)) return all(written.map((item, index) => read(item, child(schema, index))));
  if (typeof written !== 'object') return !schema.enum || schema.enum.includes(String(written)) ? written : undefined;
  const entries = Object.entries(written).map(([name, inner]) => [name, read(inner, child(schema, name))] as const);
  return entries.some(([, value]) => value === undefined) ? undefined : Object.fromEntries(entries);
}

function read(written: NewValue, schema: FieldSchema | undefined): unknown {
  return schema && plainValue(written, schema);
}

function all(values: unknown[]): unknown[] | undefined {
  return values.includes(undefined) ? undefined : values;
}

function withValue(target: unknown, [step, ...rest]: Path, value: unknown): unknown {
  if (step === undefined) return value;
  if (typeof step === 'number') {
    if (!Array.isArray(target) || step > target.length) return undefined;
    const inner = withValue(target[step], rest, value);
    return inner === undefined ? undefined : target.toSpliced(step, 1, inner);
  }
  const fields = (target ?? {}) as Record<string, unknown>;
  if (typeof fields !== 'object') return undefined;
  const inner = withValue(fields[step], rest, value);
  return inner === undefined ? undefined : { ...fields, [step]: inner };
}

/** Without a field; a section whose last field goes, goes with it. */
function without(target: unknown, [step, ...rest]: Path): unknown {
  if (typeof target !== 'object' || target === null || step === undefined) return undefined;
  if (typeof step === 'number') {
    if (!Array.isArray(target) || step >= target.length) return undefined;
    if (rest.length === 0) return target.toSpliced(step, 1);
    const inner = without(target[step], rest);
    return inner === undefined ? undefined : target.toSpliced(step, 1, inner);
  }
  const { [step]: inner, ...others } = target as Record<string, unknown>;
  if (inner === undefined) return undefined;
  if (rest.length === 0) return others;
  const left = without(inner, rest);
  if (left === undefined) return undefined;
  return isEmpty(left) ? others : { ...others, [step]: left };
}

function isEmpty(value: unknown): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length === 0;
}
