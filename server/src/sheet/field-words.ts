import { dimensions } from '../units/units.ts';
import type { Entry } from './entry.ts';
import { child, type FieldSchema, knownFields } from './schema.ts';

/** The field, or the item of it, as messages name it. */
export function nameOf({ path, schema }: Entry, first = false): string {
  const step = path.findLast((part) => typeof part === 'string');
  const isItem = typeof path.at(-1) === 'number';
  if (path.length === 0) return first ? 'A build sheet' : 'a build sheet';
  return isItem && schema?.title ? `${first ? 'An item' : 'an item'} of "${step}"` : `"${step}"`;
}

/** What a field takes, with an example. */
export function kindWanted({ schema }: Entry): string {
  if (!schema) return 'something else';
  if (schema.dimension) return `a quantity of ${dimensions[schema.dimension].title}${exampleOf(schema)}`;
  if (schema.enum) return `one of ${schema.enum.map((choice) => `"${choice}"`).join(', ')}`;
  switch (schema.type) {
    case 'object':
      return fieldsWanted(schema);
    case 'array':
      return Array.isArray(schema.items) ? pairOf(schema.items) : `a list${exampleOf(schema)}`;
    case 'boolean':
      return '"true" or "false"';
    case 'integer':
      return `a whole number${exampleOf(schema)}`;
    case 'number':
      return `a number${exampleOf(schema)}`;
    default:
      return `a text${exampleOf(schema)}`;
  }
}

function fieldsWanted(schema: FieldSchema): string {
  const names = knownFields(schema).slice(0, 3);
  const such = names.length > 0 ? `, such as ${names.map(({ word }) => `"${word}"`).join(', ')}` : '';
  return `fields of its own${such}`;
}

/** `, such as ...`: the schema's own example, or one made of its items'. */
function exampleOf(schema: FieldSchema): string {
  const example = schema.examples?.[0] ?? (schema.type === 'array' ? [itemExample(schema)] : undefined);
  const written = example === undefined ? '' : flowText(example);
  return written === '' || written === '[]' ? '' : `, such as "${written}"`;
}

function itemExample(schema: FieldSchema): unknown {
  const item = child(schema, 0);
  if (Array.isArray(item?.items)) return item.items.map(({ examples }) => examples?.[0]);
  return item?.examples?.[0] ?? item?.enum?.[0];
}

function flowText(value: unknown): string {
  if (Array.isArray(value))
    return `[${value
      .filter((item) => item !== undefined)
      .map(flowText)
      .join(', ')}]`;
  if (typeof value !== 'object' || value === null) return String(value);
  return `{ ${Object.entries(value)
    .map(([name, inner]) => `${name}: ${flowText(inner)}`)
    .join(', ')} }`;
}

/** A pair of values, named by what they are, with an example. */
export function pairOf(items: readonly FieldSchema[]): string {
  const example = items.map(({ examples }) => examples?.[0]).join(', ');
  return `a pair of ${items.map((item) => item.title?.toLowerCase()).join(' and ')}, such as "[${example}]"`;
}
