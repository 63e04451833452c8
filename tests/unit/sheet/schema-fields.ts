import { child, type FieldSchema, resolve } from '../../../server/src/sheet/schema.ts';

export type Field = { path: string; written: FieldSchema; schema: FieldSchema };

/** Every field of a sheet, those in lists under the list's name, with what is written at it beside a reference. */
export function fieldsUnder(schema: FieldSchema, path: string[] = []): Field[] {
  return Object.entries(resolve(schema).properties ?? {}).flatMap(([name, written]) => {
    const own = resolve(written);
    const inner = own.type === 'array' ? (child(own, 0) ?? {}) : own;
    const field = { path: [...path, name].join('.'), written, schema: own };
    return [field, ...fieldsUnder(inner, [...path, name])];
  });
}
