import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { childOf, isUnknown, writtenOf } from '../../../server/src/sheet/entry.ts';
import { itemIds } from '../../../server/src/sheet/item-ids.ts';
import { readText } from '../../../server/src/sheet/read.ts';
import { anEdit, edited } from '../../fuzz/edit.ts';

const catalog = `format: 1
parts:
  - id: pump-12
    kind: pump
    flow-at: [[40 psi, 250 L/h], [60 psi, 210 L/h]]
  - { id: pump-13, kind: pump }
  - kind: filter # the id stands below
    id: filter-7 # blue
  - kind: kit
    note: >-
      with
      id: nothing
    id: kit-1
    needs:
      - id: pump-12
  - { kind: filter, id: "filter 8" }
  - kind: regulator
  - id:
  - id: 12.50
stock: 3
`;

/** The ids of the items as the whole text says them; nothing where it is broken. */
function whole(text: string): (string | undefined)[] | undefined {
  const { root, broken } = readText(text, {}, () => true);
  const items = childOf(root, 'parts');
  if (broken || items?.kind !== 'list' || items.flow) return undefined;
  return items.children.map((item) => {
    const id = item.kind === 'map' ? childOf(item, 'id') : undefined;
    return id?.kind === 'scalar' && !isUnknown(id) ? writtenOf(id, text) : undefined;
  });
}

describe('the ids of the items of a list', () => {
  it('are told by their lines, each with what to read', () => {
    const ids = itemIds(catalog, 'parts') ?? [];
    expect(ids.map(({ id }) => id)).toEqual([
      ...['pump-12', 'pump-13', 'filter-7', 'kit-1', 'filter 8'],
      ...[undefined, undefined, '12.50'],
    ]);
    expect(catalog.slice(ids[1]?.cut.start, ids[1]?.cut.end)).toBe('  - { id: pump-13, kind: pump }\n');
  });

  it('are not told where one of them must be read with the rest', () => {
    expect(itemIds('parts:\n  - id: &a one\n  - id: *a\n', 'parts')).toBeUndefined();
    expect(itemIds('parts:\n  - { id: one\n  - id: two\n', 'parts')).toBeUndefined();
    expect(itemIds('parts:\n\t- id: one\n', 'parts')).toBeUndefined();
    expect(itemIds('parts: [{ id: one }]\n', 'parts')).toBeUndefined();
    expect(itemIds('parts:\n  - id: one\nparts:\n  - id: two\n', 'parts')).toBeUndefined();
  });

  it('are those the whole text has, whatever was edited', () => {
    fc.assert(
      fc.property(fc.array(anEdit, { minLength: 1, maxLength: 3 }), (edits) => {
        const text = edits.reduce(edited, catalog);
        const told = whole(text);
        const found = itemIds(text, 'parts');
        if (told && found) expect(found.map(({ id }) => id)).toEqual(told);
      }),
      { numRuns: 500 },
    );
  });
});
