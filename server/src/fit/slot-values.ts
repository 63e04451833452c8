import type { BuildSheet } from '../generated/build-sheet.ts';
import type { Change } from '../sheet/edit.ts';
import { fieldSchema, inChanges, isFields, type Path, valueAt } from '../sheet/path.ts';
import { child, type FieldSchema, isFitted } from '../sheet/schema.ts';
import type { ShelfPart } from '../sheet/shelf.ts';
import type { Slot } from '../sheet/slots.ts';

type Values = Partial<BuildSheet>;

/** What is said of a slot that tells how the part sits in this car, not what the part is. */
export function fittedAt(values: Values, slot: Slot): Record<string, unknown> {
  const section = valueAt(values, slot.path);
  const schema = fieldSchema(slot.field);
  return isFields(section) && schema ? fittedIn(section, schema) : {};
}

function fittedIn(section: Record<string, unknown>, schema: FieldSchema): Record<string, unknown> {
  const kept = Object.entries(section).flatMap(([name, value]): [string, unknown][] => {
    const own = child(schema, name);
    if (!own || value === undefined || name === 'use') return [];
    if (isFitted(schema, name)) return [[name, value]];
    if (!isFields(value)) return [];
    const inner = fittedIn(value, own);
    return Object.keys(inner).length > 0 ? [[name, inner]] : [];
  });
  return Object.fromEntries(kept);
}

/** The fields of a part where it is fitted as the sheet says; a set of throttle bodies is fitted as a set. */
function sectionWith(values: Values, slot: Slot, part: ShelfPart): Record<string, unknown> {
  const section = over(fittedAt(values, slot), part.fields);
  const size = part.kind === 'throttle-body' ? part.fields['set-size'] : undefined;
  return typeof size === 'number' ? { ...section, quantity: size } : section;
}

function over(below: Record<string, unknown>, above: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const result: Record<string, unknown> = { ...below };
  for (const [name, value] of Object.entries(above)) {
    const under = below[name];
    result[name] = isFields(under) && isFields(value) ? over(under, value) : value;
  }
  return result;
}

/** A build's values with one part in a slot for all stages, or with nothing in it but how it is fitted. */
export function valuesWith(values: Values, slot: Slot, part: ShelfPart | undefined): Values {
  const section = part ? sectionWith(values, slot, part) : fittedAt(values, slot);
  const whole = withAt(values, slot.path, section) as Values;
  if (!whole.stages) return whole;
  const stages = whole.stages.map((stage) =>
    valueAt(stage.changes, slot.path) === undefined
      ? stage
      : { ...stage, changes: withAt(stage.changes, slot.path, undefined) as NonNullable<typeof stage.changes> },
  );
  return { ...whole, stages };
}

/** The same with another part from a stage on. */
export function valuesWithLater(values: Values, slot: Slot, now: ShelfPart, later: ShelfPart, from: number): Values {
  const whole = valuesWith(values, slot, now);
  const [before, after] = [sectionWith(values, slot, now), sectionWith(values, slot, later)];
  const gone = Object.keys(before).filter((name) => !(name in after));
  const section = { ...Object.fromEntries(gone.map((name) => [name, undefined])), ...after };
  const stages = (whole.stages ?? []).map((stage, index) =>
    index === from
      ? { ...stage, changes: withAt(stage.changes ?? {}, slot.path, section) as NonNullable<typeof stage.changes> }
      : stage,
  );
  return { ...whole, stages };
}

function withAt(target: unknown, [step, ...rest]: readonly string[], value: unknown): unknown {
  if (step === undefined) return value;
  const { [step]: inner, ...others } = (target ?? {}) as Record<string, unknown>;
  const next = withAt(inner, rest, value);
  return next === undefined ? others : { ...others, [step]: next };
}

/** What a sheet takes to fit a part: its id under `use`, and nothing left of what described the part before. */
export function useChanges(own: Values, slot: Slot, part: ShelfPart, from?: number): Change[] {
  const at = (path: readonly string[]): Path =>
    from === undefined ? path : inChanges(from, path.join('.') as Slot['field']);
  const section = valueAt(from === undefined ? own : own.stages?.[from]?.changes, slot.path);
  const schema = fieldSchema(slot.field);
  const size = part.kind === 'throttle-body' ? part.fields['set-size'] : undefined;
  return [
    ...(isFields(section) && schema ? removed(section, part.fields, schema, at(slot.path)) : []),
    { set: [...at(slot.path), 'use'], to: part.id },
    ...(typeof size === 'number' && size > 1 ? [{ set: [...at(slot.path), 'quantity'], to: size }] : []),
    ...(from === undefined ? laterGone(own, slot) : []),
  ];
}

/** Own fields that describe a part, or that the new part says itself. */
function removed(section: Record<string, unknown>, fields: unknown, schema: FieldSchema, path: Path): Change[] {
  return Object.entries(section).flatMap(([name, value]): Change[] => {
    if (name === 'use' || value === undefined) return [];
    const own = child(schema, name);
    const given = isFields(fields) ? fields[name] : undefined;
    if (given === undefined && isFitted(schema, name)) return [];
    const inner = isFields(value) && own ? removed(value, given, own, [...path, name]) : undefined;
    const isPartly = inner && inner.length < Object.keys(value as object).length;
    return isPartly ? inner : [{ remove: [...path, name] }];
  });
}

function laterGone({ stages = [] }: Values, slot: Slot): Change[] {
  return stages.flatMap(({ changes }, index) =>
    valueAt(changes, slot.path) === undefined ? [] : [{ remove: inChanges(index, slot.field) }],
  );
}
