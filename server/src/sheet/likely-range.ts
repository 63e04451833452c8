import { isQuantity } from '../units/quantity.ts';
import { readQuantity } from '../units/read.ts';
import type { FieldSchema } from './schema.ts';

const ranges = new WeakMap<FieldSchema, { from: number; to: number }>();

/** The range, SI, that nearly all values of a field are in; nothing where the schema does not say. */
export function likelyRange(schema: FieldSchema): { from: number; to: number } | undefined {
  const { likely, dimension, title } = schema;
  if (!likely) return undefined;
  const known = ranges.get(schema);
  if (known) return known;
  const end = (text: string) => {
    if (!dimension) return Number(text);
    const quantity = readQuantity(text, dimension);
    if (!isQuantity(quantity)) throw new Error(`\`${text}\` in the schema of ${title} cannot be read`);
    return quantity.value;
  };
  const found = { from: end(likely.from), to: end(likely.to) };
  ranges.set(schema, found);
  return found;
}
