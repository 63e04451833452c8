import { childOf, type Entry, entryAt, innerRange, isUnknown, wholeRange, writtenOf } from '../sheet/entry.ts';
import { entryOf } from '../sheet/read.ts';
import { slots } from '../sheet/slots.ts';
import type { Range } from '../text/place.ts';

/** An id of a part or kit as it stands in a text: where it is given, in a catalog, or named. */
export type PartId = { id: string; list: 'parts' | 'kits'; range: Range; isGiven: boolean };

type Text = { root: Entry; text: string };

/** What a new id may look like. */
const ID = /^[A-Za-z0-9][A-Za-z0-9._-]{0,79}$/;

/** Every id in a sheet or a catalog; one that an alias or a merge key takes over stands where it was written. */
export function partIdsIn(kind: 'sheet' | 'catalog', sheet: Text): PartId[] {
  const all = kind === 'catalog' ? inCatalog(sheet) : inSheet(sheet);
  return [...new Map(all.map((one) => [one.range.start, one])).values()];
}

/** The id at an offset. */
export function partIdAt(kind: 'sheet' | 'catalog', sheet: Text, offset: number): PartId | undefined {
  const { path } = entryAt(sheet.root, offset);
  const isNear = (one: Entry) => path.length === 0 || one.path[0] === path[0];
  const near = { ...sheet, root: { ...sheet.root, children: sheet.root.children.filter(isNear) } };
  const all = kind === 'catalog' ? inCatalog(near, path[1]) : inSheet(near);
  return all.find(({ range }) => range.start <= offset && offset <= range.end);
}

function inSheet({ root, text }: Text): PartId[] {
  const stages = childOf(root, 'stages')?.children ?? [];
  const wholes = [root, ...stages.flatMap((stage) => childOf(stage, 'changes') ?? [])];
  const uses = wholes.flatMap((whole) =>
    slots.flatMap(({ path }) => idOf(entryFrom(whole, [...path, 'use']), text, 'parts', false)),
  );
  const kits = [root, ...stages].flatMap((whole) => childOf(whole, 'kits')?.children ?? []);
  return [...uses, ...kits.flatMap((kit) => idOf(kit, text, 'kits', false))];
}

function inCatalog({ root, text }: Text, only?: string | number): PartId[] {
  const items = (list: string) =>
    (entryOf({ root }, [list])?.children ?? []).filter(({ path }) => only === undefined || path[1] === only);
  const parts = items('parts').flatMap((part) => idOf(childOf(part, 'id'), text, 'parts', true));
  const kits = items('kits').flatMap((kit) => [
    ...idOf(childOf(kit, 'id'), text, 'kits', true),
    ...(childOf(kit, 'kits')?.children ?? []).flatMap((inner) => idOf(inner, text, 'kits', false)),
    ...(childOf(kit, 'brings')?.children ?? []).flatMap((part) => idOf(part, text, 'parts', false)),
  ]);
  return [...parts, ...kits];
}

function entryFrom(root: Entry, steps: readonly string[]): Entry | undefined {
  return steps.reduce<Entry | undefined>((entry, step) => entry && childOf(entry, step), root);
}

function idOf(entry: Entry | undefined, text: string, list: PartId['list'], isGiven: boolean): PartId[] {
  if (entry?.kind !== 'scalar' || isUnknown(entry) || wholeRange(entry).end > text.length) return [];
  return [
    {
      id: writtenOf(entry, text),
      list,
      range: innerRange({ ...entry, value: entry.anchored ?? entry.value }, text),
      isGiven,
    },
  ];
}

/** Why an id cannot be given, if it cannot. */
export function idRefusal(name: string, known: readonly string[]): string | undefined {
  if (!ID.test(name)) return 'An id is made of letters, digits, dots, dashes and underscores, 80 at most.';
  return known.includes(name) ? `There is "${name}" already.` : undefined;
}
