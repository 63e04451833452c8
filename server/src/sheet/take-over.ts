import type { BuildSheet } from '../generated/build-sheet.ts';
import { isQuantityValue } from '../units/quantity.ts';
import { hosePlan } from './hose.ts';
import { kept } from './kept.ts';
import { inChanges, isFields, type Path, stepsOf, valueAt } from './path.ts';
import type { Shelf, ShelfPart } from './shelf.ts';
import { type Slot, sectionAt, slotNamed, slots } from './slots.ts';
import { merged } from './stages.ts';

/** A part of a catalog that the sheet names: where, for which slot, and from which stage on. */
export type Taken = {
  /** The place of `use`, or of the kit that brings it. */
  place: Path;
  id: string;
  slot: Slot;
  /** The section it stands for: of the sheet, or of what a stage changes. */
  section: Path;
  stage: number | undefined;
  kit: string | undefined;
  /** Nothing, where no catalog has it or it is of another kind. */
  part: ShelfPart | undefined;
};

/** A kit that the sheet names. */
export type TakenKit = { place: Path; id: string; isKnown: boolean; cycle: readonly string[] | undefined };

export type TakenOver = { values: Partial<BuildSheet>; taken: readonly Taken[]; kits: readonly TakenKit[] };

/**
 * The values of a sheet with the parts that it takes over from catalogs: the fields of a part under those the sheet says
 * itself. A stage that names another part for a slot gives up the fields of the part before.
 */
export function takeOver(values: Partial<BuildSheet>, shelf: Shelf): TakenOver {
  if (!namesAny(values)) return { values, taken: [], kits: [] };
  const kits: TakenKit[] = [];
  const inSheet = takenIn(values, values.kits, ['kits'], undefined, shelf, kits);
  const taken = [...inSheet];
  const parts = new Map<Slot, ShelfPart>();
  take(parts, inSheet);
  let own = values;
  const whole = withParts(own, parts);
  let before = whole;
  const stages = values.stages?.map((stage, index) => {
    const { changes } = stage;
    own = changes ? (merged(own, changes) as Partial<BuildSheet>) : own;
    const inStage = takenIn(changes, stage.kits, ['stages', index, 'kits'], index, shelf, kits);
    taken.push(...inStage);
    take(parts, inStage);
    const after = kept(before, withParts(own, parts));
    const replaced = inStage.filter(({ part }) => part).map(({ slot }) => slot);
    const sections = replaced.reduce<unknown>(
      (all, { path }) =>
        withValue(all, path, change(valueAt(before, path), valueAt(after, path), valueAt(changes, path))),
      changes,
    );
    before = after;
    return replaced.length > 0 ? { ...stage, changes: sections as NonNullable<typeof changes> } : stage;
  });
  return { values: stages ? { ...whole, stages } : whole, taken, kits };
}

function namesAny({ kits, stages = [], ...sheet }: Partial<BuildSheet>): boolean {
  const has = (values: Partial<BuildSheet> | undefined) =>
    slots.some((slot) => sectionAt(values, slot)?.use !== undefined);
  return (
    kits !== undefined ||
    has(sheet) ||
    stages.some(({ kits: ofStage, changes }) => ofStage !== undefined || has(changes))
  );
}

function takenIn(
  values: Partial<BuildSheet> | undefined,
  kitIds: readonly string[] | undefined,
  at: Path,
  stage: number | undefined,
  shelf: Shelf,
  kits: TakenKit[],
): Taken[] {
  const found = new Map<Slot, Taken>();
  const sectionOf = ({ field }: Slot) => (stage === undefined ? stepsOf(field) : inChanges(stage, field));
  const add = (slot: Slot, id: string, place: Path, kit: string | undefined) => {
    const known = shelf.part(id);
    const part = known?.kind === slot.kind ? known : undefined;
    found.set(slot, { place, id, slot, section: sectionOf(slot), stage, kit, part });
  };
  kitIds?.forEach((id, index) => {
    const place = [...at, index];
    const { brings, cycle } = contentsOf(id, shelf);
    kits.push({ place, id, isKnown: shelf.kit(id) !== undefined, cycle });
    for (const [slot, part] of brings) add(slot, part, place, id);
  });
  for (const slot of slots) {
    const use = sectionAt(values, slot)?.use;
    if (typeof use === 'string') add(slot, use, [...sectionOf(slot), 'use'], undefined);
  }
  return [...found.values()];
}

/** Most kits within kits that are followed. */
export const MOST_WITHIN = 50;

/** The parts of a kit and of those it holds, what it says itself over what they bring; the way round, if it holds itself. */
function contentsOf(id: string, shelf: Shelf) {
  const brings = new Map<Slot, string>();
  const seen = new Set<string>();
  let cycle: readonly string[] | undefined;
  const visit = (one: string, way: readonly string[]) => {
    if (way.includes(one)) cycle ??= [...way.slice(way.indexOf(one)), one];
    if (seen.has(one) || way.length > MOST_WITHIN) return;
    seen.add(one);
    const kit = shelf.kit(one);
    for (const inner of kit?.kits ?? []) visit(inner, [...way, one]);
    for (const [name, part] of Object.entries(kit?.brings ?? {})) {
      const slot = slotNamed(name);
      if (slot) brings.set(slot, part);
    }
  };
  visit(id, []);
  return { brings, cycle };
}

function take(parts: Map<Slot, ShelfPart>, taken: readonly Taken[]): void {
  for (const { slot, part } of taken) {
    if (part) parts.set(slot, part);
    else parts.delete(slot);
  }
}

function withParts(own: Partial<BuildSheet>, parts: ReadonlyMap<Slot, ShelfPart>): Partial<BuildSheet> {
  let all: unknown = own;
  for (const slot of slots) {
    const part = parts.get(slot);
    if (!part) continue;
    const section = valueAt(own, slot.path);
    const inner = slots.filter((other) => parts.has(other) && other !== slot && isWithin(other, slot));
    const fields = inner.reduce((left, { path }) => without(left, path.at(-1) ?? ''), pricedFor(section, part));
    all = withValue(all, slot.path, section === undefined ? fields : merged(fields, section));
  }
  return all as Partial<BuildSheet>;
}

/** The fields of a part; a line that is sold by its length costs what is bought of it for the run. */
function pricedFor(section: unknown, part: ShelfPart): Readonly<Record<string, unknown>> {
  const { fields, costPer } = part;
  if (!costPer || !('cost' in fields)) return fields;
  const unpriced = without(fields, 'cost');
  const length = valueAt(section, ['length']);
  const cost = isQuantityValue(length) ? hosePlan(part, [length.value])?.cost : undefined;
  return cost === undefined ? unpriced : { ...unpriced, cost };
}

function isWithin({ path }: Slot, outer: Slot): boolean {
  return path.length > outer.path.length && outer.path.every((step, index) => step === path[index]);
}

const lessened = new WeakMap<object, Map<string, Record<string, unknown>>>();

/** Fields but one; of the same the same object. */
function without(fields: Readonly<Record<string, unknown>>, name: string): Readonly<Record<string, unknown>> {
  if (!(name in fields)) return fields;
  const known = lessened.get(fields)?.get(name);
  if (known) return known;
  const { [name]: _, ...others } = fields;
  if (!lessened.has(fields)) lessened.set(fields, new Map());
  lessened.get(fields)?.set(name, others);
  return others;
}

function withValue(target: unknown, [step, ...rest]: readonly string[], value: unknown): unknown {
  if (step === undefined) return value;
  const fields = (target ?? {}) as Record<string, unknown>;
  return { ...fields, [step]: withValue(fields[step], rest, value) };
}

/** What makes one section of another, given what the stage says of it itself; what goes is set to nothing. */
function change(before: unknown, after: unknown, own: unknown): unknown {
  if (!isFields(before) || !isFields(after)) return after;
  const said = isFields(own) ? own : {};
  const names = new Set([...Object.keys(before), ...Object.keys(after)]);
  const result: Record<string, unknown> = {};
  for (const name of names) {
    if (before[name] === after[name] && !(name in said)) continue;
    result[name] = change(before[name], after[name], said[name]);
  }
  return result;
}
