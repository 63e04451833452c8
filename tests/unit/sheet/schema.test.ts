import { describe, expect, it } from 'vitest';
import { child, type FieldSchema, houseRoot, type Path, resolve, root } from '../../../server/src/sheet/schema.ts';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { isQuantity } from '../../../server/src/units/quantity.ts';

/** Every field of a schema by its path, items as 0. */
function fieldsOf(schema: FieldSchema, path: Path, told: Set<FieldSchema>): { path: string; schema: FieldSchema }[] {
  const own = resolve(schema);
  if (told.has(own)) return [];
  told.add(own);
  const names = Object.keys(own.properties ?? {});
  const items = Array.isArray(own.items) ? own.items.map((_, index) => index) : own.items ? [0] : [];
  return [...names, ...items].flatMap((step) => {
    const field = child(own, step);
    const inner = [...path, step];
    return field ? [{ path: inner.join('.'), schema: field }, ...fieldsOf(field, inner, told)] : [];
  });
}

const fields = [...fieldsOf(root, [], new Set()), ...fieldsOf(houseRoot, [], new Set())];

describe('every field of the schemas', () => {
  it('is found', () => {
    expect(fields.length).toBeGreaterThan(200);
  });

  it('has a title and a description that ends as a sentence does', () => {
    const bare = fields.filter(({ schema }) => !schema.title || !/[.;)]$/.test(schema.description ?? ''));
    expect(bare.map(({ path }) => path)).toEqual([]);
  });

  it('has an example where it is a value, and for a quantity examples and range that can be read and fit', () => {
    for (const { path, schema } of fields) {
      if (schema.type === 'object') continue;
      expect(schema.examples?.length, path).toBeGreaterThan(0);
      const { dimension, allowed, examples = [] } = schema;
      if (!dimension) continue;
      const [from, to, ...given] = [allowed?.from ?? examples[0], allowed?.to ?? examples[0], ...examples].map(
        (text) => {
          const read = parseQuantity(String(text), dimension);
          expect(isQuantity(read), `${path}: ${text}`).toBe(true);
          return isQuantity(read) ? read.value : Number.NaN;
        },
      );
      for (const value of given) {
        expect(value, path).toBeGreaterThanOrEqual((from ?? Number.NaN) - 1e-12);
        expect(value, path).toBeLessThanOrEqual((to ?? Number.NaN) + 1e-12);
      }
    }
  });

  it('explains every choice', () => {
    for (const { path, schema } of fields) {
      if (schema.enum) expect(schema.enumDescriptions?.length, path).toBe(schema.enum.length);
    }
  });
});
