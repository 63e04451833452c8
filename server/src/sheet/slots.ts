import type { BuildSheet } from '../generated/build-sheet.ts';
import type { Part } from '../generated/catalog.ts';
import type { FieldPath } from './path.ts';
import { type Path, stepsOf, unchanged, valueAt } from './path.ts';

/** What a part of a catalog is: the name of the section that describes it there. */
export type PartKind = Exclude<
  keyof Part,
  'id' | 'name' | 'cost' | 'sold' | 'cost-per' | 'stock' | 'quoted' | 'available' | 'note' | 'source'
>;

/** A section of the sheet that a part of a catalog can stand for. */
export type Slot = { name: string; title: string; field: FieldPath; path: readonly string[]; kind: PartKind };

const slot = (name: string, title: string, field: FieldPath, kind: PartKind): Slot => ({
  name,
  title,
  field,
  path: stepsOf(field),
  kind,
});

/** Every slot, what holds another before what it holds. */
export const slots: readonly Slot[] = [
  slot('throttle-body', 'throttle body', 'throttle-body', 'throttle-body'),
  slot('injectors', 'injectors', 'throttle-body.injectors', 'injectors'),
  slot('intake', 'intake manifold', 'engine.intake', 'intake'),
  slot('adapter', 'adapter', 'stack.adapter', 'adapter'),
  slot('manifold-pressure-sensor', 'manifold-pressure sensor', 'sensors.manifold-pressure', 'manifold-pressure-sensor'),
  slot('oxygen-sensor', 'oxygen sensor', 'sensors.oxygen', 'oxygen-sensor'),
  slot('coolant-sensor', 'coolant sensor', 'sensors.coolant', 'coolant-sensor'),
  slot('ignition', 'ignition', 'ignition', 'ignition'),
  slot('coil', 'coil', 'ignition.coil', 'coil'),
  slot('tank', 'tank', 'fuel-system.tank', 'tank'),
  slot('pump', 'fuel pump', 'fuel-system.pump', 'pump'),
  slot('lift-pump', 'lift pump', 'fuel-system.lift-pump', 'lift-pump'),
  slot('suction', 'suction line', 'fuel-system.suction', 'line'),
  slot('pre-filter', 'pre-filter', 'fuel-system.pre-filter', 'filter'),
  slot('feed', 'feed line', 'fuel-system.feed', 'line'),
  slot('filter', 'fine filter', 'fuel-system.filter', 'filter'),
  slot('return', 'return line', 'fuel-system.return', 'line'),
  slot('regulator', 'regulator', 'fuel-system.regulator', 'regulator'),
  slot('pump-circuit', 'pump circuit', 'electrical.pump-circuit', 'circuit'),
  slot('lift-pump-circuit', 'lift-pump circuit', 'electrical.lift-pump-circuit', 'circuit'),
  slot('fan-circuit', 'fan circuit', 'electrical.fan-circuit', 'circuit'),
];

type Section = { use?: unknown; [field: string]: unknown };

const byName = new Map(slots.map((one) => [one.name, one]));
const byPath = new Map(slots.map((one) => [one.path.join('.'), one]));

export const kinds: readonly PartKind[] = [...new Set(slots.map(({ kind }) => kind))];

/** The slot of a name, as kits and the command line call it. */
export function slotNamed(name: string): Slot | undefined {
  return byName.get(name);
}

/** How many pieces a build has of the part in a slot; injectors stand in each of the throttle bodies. */
export function piecesOf({ name, path }: Slot, values: Partial<BuildSheet>): number {
  const quantity = valueAt(values, [...path, 'quantity']);
  const bodies = name === 'injectors' ? (values['throttle-body']?.quantity ?? 1) : 1;
  return (typeof quantity === 'number' ? quantity : 1) * bodies;
}

/** The slot at these steps of the sheet, or of what a stage changes. */
export function slotAt(steps: Path): Slot | undefined {
  return byPath.get(unchanged(steps).place.join('.'));
}

/** The innermost slot that a place of the sheet, or of what a stage changes, is in. */
export function slotAround(steps: Path): Slot | undefined {
  return slots.findLast((slot) => isInSlot(steps, slot));
}

/** Whether a place of the sheet, or of what a stage changes, is in a slot. */
export function isInSlot(steps: Path, { path }: Slot): boolean {
  const { place } = unchanged(steps);
  return path.every((step, index) => place[index] === step);
}

/** What the sheet, or a stage's changes, say of a slot. */
export function sectionAt(values: Partial<BuildSheet> | undefined, { path }: Slot): Section | undefined {
  const section = valueAt(values, path);
  return typeof section === 'object' && section !== null ? (section as Section) : undefined;
}
