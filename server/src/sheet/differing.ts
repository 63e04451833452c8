import { isFields, type Path } from './path.ts';

/**
 * In what two sheets differ: a field with other values, of which one may be missing, an item of a list that only one of
 * them has, or a list whose items come in another order. `place` is where it stands, or would stand, in the later sheet,
 * `was` in the earlier one.
 */
export type Differing = { kind: 'field' | 'item' | 'order'; place: Path; was: Path; before: unknown; after: unknown };

/** Which item of a list of the earlier sheet is which of the later one, by their numbers. */
export type Pair = readonly [before: number, after: number];

/** Whether two values that are no sections and no lists of named items say the same. */
export type IsSame = (before: unknown, after: unknown) => boolean;

/** Whether two values are written the same, quantities in one unit and with the same digits. */
export function isWrittenTheSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

/**
 * Every difference of two trees of values. Items of lists are known by what names them: parts by their id, stages by their
 * name, silenced findings by their rule, notes by their date; one that stays at its number under another name is the same.
 */
export function differing(before: unknown, after: unknown, isSame: IsSame): Differing[] {
  const found: Differing[] = [];
  fields(before, after, [], [], { found, isSame });
  return found;
}

type Walk = { found: Differing[]; isSame: IsSame };

function fields(before: unknown, after: unknown, was: Path, place: Path, walk: Walk): void {
  if (before === after) return;
  if (isFields(before) && isFields(after)) {
    for (const name of new Set([...Object.keys(before), ...Object.keys(after)]))
      fields(before[name], after[name], [...was, name], [...place, name], walk);
    return;
  }
  if (isNamedList(before) && isNamedList(after)) items(before, after, was, place, walk);
  else if (!walk.isSame(before, after)) walk.found.push({ kind: 'field', place, was, before, after });
}

function items(before: readonly unknown[], after: readonly unknown[], was: Path, place: Path, walk: Walk): void {
  const pairs = pairsOf(before, after, walk.isSame);
  const here = { was, place };
  for (const [old, now] of pairs) fields(before[old], after[now], [...was, old], [...place, now], walk);
  const [olds, nows] = [new Set(pairs.map(([old]) => old)), new Set(pairs.map(([, now]) => now))];
  for (const [old, item] of before.entries()) if (!olds.has(old)) walk.found.push(itemOf(here, old, item, undefined));
  for (const [now, item] of after.entries()) if (!nows.has(now)) walk.found.push(itemOf(here, now, undefined, item));
  if (!isInOrder(pairs)) walk.found.push({ kind: 'order', place, was, before, after });
}

function itemOf({ was, place }: { was: Path; place: Path }, index: number, before: unknown, after: unknown): Differing {
  return { kind: 'item', place: [...place, index], was: [...was, index], before, after };
}

function isInOrder(pairs: readonly Pair[]): boolean {
  const sorted = pairs.toSorted(([one], [other]) => one - other);
  return sorted.every(([, now], index) => index === 0 || (sorted[index - 1]?.[1] ?? 0) < now);
}

/** The items of two lists that are the same: those that say the same, then those of one name, then those of one number. */
export function pairsOf(before: readonly unknown[], after: readonly unknown[], isSame: IsSame): Pair[] {
  const pairs: Pair[] = [];
  const [olds, nows] = [new Set(before.keys()), new Set(after.keys())];
  const pair = (isOne: (old: number, now: number) => boolean) => {
    for (const old of olds) {
      const now = [...nows].find((index) => isOne(old, index));
      if (now === undefined) continue;
      pairs.push([old, now]);
      olds.delete(old);
      nows.delete(now);
    }
  };
  const sameName = (old: number, now: number) => nameOf(before[old]) === nameOf(after[now]);
  pair((old, now) => sameName(old, now) && differing(before[old], after[now], isSame).length === 0);
  pair((old, now) => nameOf(before[old]) !== undefined && sameName(old, now));
  pair((old, now) => old === now);
  return pairs.toSorted(([one], [other]) => one - other);
}

/** Whether a value is a list whose items have names of their own. */
function isNamedList(value: unknown): value is readonly unknown[] {
  return Array.isArray(value) && value.length > 0 && value.every(isFields) && value.some((item) => nameOf(item));
}

/** What an item of a list is known by. */
export function nameOf(item: unknown): string | undefined {
  const { id, name, rule, date } = (item ?? {}) as Record<string, unknown>;
  const given = [id, name, rule, date].find((one) => typeof one === 'string');
  return typeof given === 'string' ? given : undefined;
}

/** The later tree of values with some differences put back to what they were in the earlier one. */
export function putBack<T>(values: T, differences: readonly Differing[]): T {
  let result: unknown = values;
  const set = differences.filter(({ kind }) => kind === 'field');
  for (const { place, before } of set) result = withField(result, place, before);
  const lists = new Map<string, Differing[]>();
  for (const one of differences) {
    if (one.kind === 'field') continue;
    const list = one.kind === 'item' ? one.place.slice(0, -1) : one.place;
    const key = JSON.stringify(list);
    lists.set(key, [...(lists.get(key) ?? []), one]);
  }
  for (const [key, inList] of lists) {
    const path = JSON.parse(key) as Path;
    result = changed(result, path, (list) => listPutBack(list as readonly unknown[], inList));
  }
  return result as T;
}

function listPutBack(list: readonly unknown[], differences: readonly Differing[]): unknown[] {
  const added = new Set(
    differences.flatMap((one) => (one.kind === 'item' && one.before === undefined ? lastOf(one) : [])),
  );
  const order = differences.find(({ kind }) => kind === 'order');
  let items = list.map((item, index) => ({ item, index })).filter(({ index }) => !added.has(index));
  if (order) {
    const [before, after] = [order.before as readonly unknown[], order.after as readonly unknown[]];
    const placeOf = new Map(pairsOf(before, after, Object.is).map(([old, now]) => [now, old]));
    const rank = ({ index }: { index: number }) => placeOf.get(index) ?? index;
    items = items.toSorted((one, other) => rank(one) - rank(other));
  }
  const result = items.map(({ item }) => item);
  for (const one of differences)
    if (one.kind === 'item' && one.before !== undefined) result.splice(lastOf(one), 0, one.before);
  return result;
}

function lastOf({ place }: Differing): number {
  return place.at(-1) as number;
}

function withField(values: unknown, path: Path, value: unknown): unknown {
  const name = path.at(-1);
  return changed(values, path.slice(0, -1), (inner) => {
    if (typeof name === 'number') return (inner as readonly unknown[]).with(name, value);
    const { [String(name)]: _, ...others } = (inner ?? {}) as Record<string, unknown>;
    return value === undefined ? others : { ...(inner as object), [String(name)]: value };
  });
}

/** Values with what stands at a path replaced by something made of it. */
function changed(values: unknown, [step, ...rest]: Path, make: (inner: unknown) => unknown): unknown {
  if (step === undefined) return make(values);
  if (typeof step === 'number') {
    const list = values as readonly unknown[];
    return list.with(step, changed(list[step], rest, make));
  }
  const fields = (values ?? {}) as Record<string, unknown>;
  return { ...fields, [step]: changed(fields[step], rest, make) };
}
