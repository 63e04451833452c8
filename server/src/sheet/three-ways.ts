import { isWrittenTheSame, nameOf, pairsOf } from './differing.ts';
import { isFields, type Path } from './path.ts';
import { placeName } from './place-name.ts';

/** Two changes of one sheet as one, or the fields that both change, each in its own way. */
export type Merged = { values: unknown; conflicts: readonly string[] };

/** Lists in which an item stands on those before it, so that two sides cannot both add or move one. */
const IN_ORDER = ['stages'];

/**
 * Merges two trees of values that go back to one: a field takes the value of the side that changed it. Items of lists are
 * known by their names.
 */
export function threeWays(base: unknown, ours: unknown, theirs: unknown): Merged {
  const conflicts: string[] = [];
  const values = merged(base, ours, theirs, []);
  return { values, conflicts };

  function merged(b: unknown, o: unknown, t: unknown, path: Path): unknown {
    if (isWrittenTheSame(o, t) || isWrittenTheSame(b, t)) return o;
    if (isWrittenTheSame(b, o)) return t;
    if (isFields(o) && isFields(t) && (b === undefined || isFields(b))) return mergedFields(b ?? {}, o, t, path);
    if (isItems(o) && isItems(t) && (b === undefined || isItems(b))) return mergedItems(b ?? [], o, t, path);
    conflicts.push(placeName(path, base) || 'the whole sheet');
    return o;
  }

  function mergedFields(
    b: Record<string, unknown>,
    o: Record<string, unknown>,
    t: Record<string, unknown>,
    path: Path,
  ): unknown {
    const names = new Set([...Object.keys(o), ...Object.keys(t), ...Object.keys(b)]);
    const fields = [...names].map((name) => [name, merged(b[name], o[name], t[name], [...path, name])] as const);
    return Object.fromEntries(fields.filter(([, value]) => value !== undefined));
  }

  function mergedItems(b: Items, o: Items, t: Items, path: Path): unknown {
    const [inOurs, inTheirs] = [itemPairs(b, o), itemPairs(b, t)];
    const [moved, movedByThem] = [isOtherSet(b, o, inOurs), isOtherSet(b, t, inTheirs)];
    if (moved && movedByThem && IN_ORDER.includes(String(path.at(-1)))) {
      conflicts.push(placeName(path, base));
      return o;
    }
    const lead = movedByThem && !moved ? t : o;
    const [own, other] = lead === o ? [inOurs, inTheirs] : [inTheirs, inOurs];
    const follow = lead === o ? t : o;
    const result = lead.flatMap((item, index) => {
      const at = own.get(index);
      if (at === undefined) return [item];
      const there = [...other].find(([, old]) => old === at)?.[0];
      const [mine, yours] = lead === o ? [item, follow[there ?? -1]] : [follow[there ?? -1], item];
      const value = merged(b[at], mine, yours, [...path, at]);
      return value === undefined ? [] : [value];
    });
    const ownOld = new Set(own.values());
    for (const [there, old] of other)
      if (!ownOld.has(old) && !isWrittenTheSame(b[old], follow[there])) conflicts.push(placeName([...path, old], base));
    const added = follow.filter((_, index) => !other.has(index));
    for (const item of added) {
      const name = nameOf(item);
      const twin = lead.find((one, index) => !own.has(index) && name !== undefined && nameOf(one) === name);
      if (name === undefined) conflicts.push(placeName(path, base));
      else if (twin === undefined) result.push(item);
      else if (!isWrittenTheSame(twin, item) && path.at(-1) !== 'notes')
        conflicts.push(`${placeName(path, base)} ${name}`);
      else if (!isWrittenTheSame(twin, item)) result.push(item);
    }
    return result;
  }
}

type Items = readonly Record<string, unknown>[];

function isItems(value: unknown): value is Items {
  return Array.isArray(value) && value.every(isFields) && value.some((item) => nameOf(item) !== undefined);
}

/** The items of a later list that an earlier one has, each with its number there. */
function itemPairs(before: Items, after: Items): Map<number, number> {
  return new Map(pairsOf(before, after, isWrittenTheSame).map(([old, now]) => [now, old]));
}

function isOtherSet(before: Items, after: Items, pairs: ReadonlyMap<number, number>): boolean {
  const order = [...after.keys()].flatMap((index) => pairs.get(index) ?? []);
  return (
    before.length !== after.length ||
    pairs.size !== after.length ||
    !isWrittenTheSame(
      order,
      order.toSorted((one, other) => one - other),
    )
  );
}
