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
