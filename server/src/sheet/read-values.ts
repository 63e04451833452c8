import { parseQuantity } from '../units/parse.ts';
import { isQuantity, type Quantity, type QuantityError } from '../units/quantity.ts';
import { type Entry, pathText, type Range } from './entry.ts';
import type { Problem } from './problem.ts';
import type { FieldSchema } from './schema.ts';

/** The typed values of a sheet without the invalid fields, and what is wrong with its quantities. */
export function readValues<Values>(root: Entry, invalid: ReadonlySet<string>, text: string) {
  const problems: Problem[] = [];

  function value(entry: Entry): unknown {
    if (invalid.has(pathText(entry.path)) || entry.kind === 'empty') return undefined;
    const { schema } = entry;
    if (schema?.dimension) return quantity(entry, schema);
    if (entry.kind === 'scalar') return entry.scalar ?? undefined;
    if (entry.kind === 'list') return list(entry);
    const values: Record<string, unknown> = {};
    for (const inner of entry.children) {
      const name = String(inner.path.at(-1));
      const read = inner.schema && value(inner);
      if (read !== undefined && name !== '__proto__') values[name] = read;
    }
    return values;
  }

  function list(entry: Entry): unknown {
    const read = entry.children.map(value);
    const isTable = entry.children.every((item) => item.kind === 'list');
    const isPoint = Array.isArray(entry.schema?.items);
    if (isTable || isPoint) return read.some((item) => item === undefined) ? undefined : read;
    const holdsMaps = entry.children.some((item) => item.kind === 'map');
    return holdsMaps ? read.map((item) => item ?? {}) : read.filter((item) => item !== undefined);
  }

  function quantity(entry: Entry, schema: FieldSchema): Quantity | undefined {
    if (!schema.dimension || entry.kind !== 'scalar') return undefined;
    const written = String(entry.scalar);
    const read = parseQuantity(written, schema.dimension, () => usualUnits(schema));
    if (!isQuantity(read)) {
      problems.push(quantityProblem(entry, written, read, text));
      return undefined;
    }
    const beyond = outOfRange(read, schema);
    if (beyond) problems.push({ code: 'sheet/out-of-range', message: beyond, range: entry.value, fixes: [] });
    return beyond ? undefined : read;
  }

  return { values: (value(root) ?? {}) as Partial<Values>, problems };
}

/** The units of a field's examples. */
export function usualUnits({ examples = [], dimension }: FieldSchema): string[] {
  return examples.flatMap((example) => {
    const read = dimension && parseQuantity(String(example), dimension);
    return read && isQuantity(read) ? [read.unit] : [];
  });
}

function quantityProblem(entry: Entry, written: string, error: QuantityError, text: string): Problem {
  const inner = innerRange(entry, text);
  const asWritten = text.slice(inner.start, inner.end) === written;
  const range = asWritten ? { start: inner.start + error.start, end: inner.start + error.end } : entry.value;
  return {
    code: 'sheet/quantity',
    message: error.message,
    range: range.end > range.start ? range : entry.value,
    fixes: error.instead.map((instead, index) => ({
      title: `Write \`${instead}\``,
      edits: [{ ...inner, text: instead }],
      preferred: index === 0 && error.instead.length === 1,
    })),
  };
}

/** The text of a scalar within its quotes. */
export function innerRange({ value, quote }: Entry, text: string): Range {
  if (!quote) return value;
  const closed = text[value.end - 1] === quote && value.end - 1 > value.start;
  return { start: value.start + 1, end: closed ? value.end - 1 : value.end };
}

const bounds = new WeakMap<FieldSchema, { from: number; to: number }>();

function boundsOf(schema: FieldSchema): { from: number; to: number } | undefined {
  const { allowed, dimension, title } = schema;
  if (!allowed || !dimension) return undefined;
  const known = bounds.get(schema);
  if (known) return known;
  const from = parseQuantity(allowed.from, dimension);
  const to = parseQuantity(allowed.to, dimension);
  if (!isQuantity(from) || !isQuantity(to)) throw new Error(`the schema's range of ${title} cannot be read`);
  const found = { from: from.value, to: to.value };
  bounds.set(schema, found);
  return found;
}

function outOfRange({ low, high, text }: Quantity, schema: FieldSchema): string | undefined {
  const range = boundsOf(schema);
  if (!range || (low >= range.from && high <= range.to)) return undefined;
  const { allowed, title } = schema;
  return `\`${text.trim()}\` is out of range: ${title?.toLowerCase()} runs from ${allowed?.from} to ${allowed?.to}.`;
}
