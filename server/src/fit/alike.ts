import type { ShelfPart } from '../sheet/shelf.ts';

const keys = new WeakMap<ShelfPart, string>();

/** What a part does and how it is sold: the same for parts that differ in nothing but what they are called and cost. */
export function alikeKey(part: ShelfPart): string {
  let key = keys.get(part);
  if (key === undefined) {
    const { name: _, cost: __, ...fields } = part.fields;
    key = JSON.stringify([part.kind, fields, part.sold, part.costPer?.value]);
    keys.set(part, key);
  }
  return key;
}

/** Of parts that do the same those that cost least. */
export function cheapestOfAlike(parts: readonly ShelfPart[]): ShelfPart[] {
  const priceOf = ({ cost }: ShelfPart) => cost ?? Number.POSITIVE_INFINITY;
  const least = new Map<string, number>();
  for (const part of parts) {
    const known = least.get(alikeKey(part));
    if (known === undefined || priceOf(part) < known) least.set(alikeKey(part), priceOf(part));
  }
  return parts.filter((part) => priceOf(part) === least.get(alikeKey(part)));
}
