import { quoted } from '../text/echo.ts';
import { doubt } from '../units/doubt.ts';
import { type Expected, isWithin } from '../units/expected.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity, type Quantity, type QuantityError } from '../units/quantity.ts';
import { readQuantity } from '../units/read.ts';
import { type Entry, innerRange, isUnknown, pathText, writtenOf } from './entry.ts';
import { kept } from './kept.ts';
import { movedProblem } from './moved.ts';
import type { Part } from './part.ts';
import type { Problem } from './problem.ts';
import { child, type FieldSchema, type Path } from './schema.ts';

/**
 * The typed values of a sheet without the invalid fields, what is wrong with its quantities, and the paths of the fields
 * whose values are not used because of either.
 */
export function readValues<Values>(
  root: Entry,
  invalid: ReadonlyMap<string, Path>,
  text: string,
): { values: Partial<Values>; problems: Problem[]; unread: Path[] } {
  const reading = new Reading(invalid, text);
  const values = (reading.value(root) ?? {}) as Partial<Values>;
  return { values, problems: reading.problems, unread: reading.unread };
}

/** The values of one text as they are read, with what is wrong on the way. */
class Reading {
  readonly problems: Problem[] = [];
  readonly unread: Path[] = [];
  /** The parts that hold something invalid. */
  private readonly touched: ReadonlySet<string>;

  constructor(
    private readonly invalid: ReadonlyMap<string, Path>,
    private readonly text: string,
  ) {
    this.touched = new Set(
      [...invalid.values()].flatMap((path) => [pathText(path.slice(0, 1)), pathText(path.slice(0, 2))]),
    );
  }

  value(entry: Entry): unknown {
    const { part, path } = entry;
    if (this.invalid.size > 0 && this.invalid.has(pathText(path))) {
      this.unread.push(path);
      return undefined;
    }
    if (!part) return this.valueWithin(entry);
    const isTouched = this.touched.size > 0 && this.touched.has(pathText(path));
    if (isTouched || !part.read) this.remember(entry, part, !isTouched);
    else this.again(entry, part, part.read);
    return part.value;
  }

  private again({ path, value: { start } }: Entry, part: Part, read: NonNullable<Part['read']>): void {
    for (const problem of read.problems) this.problems.push(movedProblem(problem, start - read.at));
    for (const inner of read.unread) this.unread.push([...path, ...inner]);
    part.value = kept(part.value, read.value);
  }

  private remember(entry: Entry, part: Part, isSound: boolean): void {
    const [told, left] = [this.problems.length, this.unread.length];
    part.value = kept(part.value, this.valueWithin(entry));
    if (!isSound) return;
    part.read = {
      value: part.value,
      problems: this.problems.slice(told),
      unread: this.unread.slice(left).map((path) => path.slice(entry.path.length)),
      at: entry.value.start,
    };
  }

  private valueWithin(entry: Entry): unknown {
    if (isUnknown(entry)) return undefined;
    const { schema } = entry;
    if (schema?.dimension) return this.quantity(entry, schema);
    if (entry.kind === 'scalar') return entry.scalar;
    return entry.kind === 'list' ? this.list(entry) : this.fields(entry);
  }

  /** Of a field written twice the last counts, as for the schema check, also where it is left empty. */
  private fields(entry: Entry): Record<string, unknown> {
    const values: Record<string, unknown> = {};
    for (const inner of entry.children) {
      const name = String(inner.path.at(-1));
      const read = inner.schema && this.value(inner);
      if (read === undefined) delete values[name];
      else if (name !== '__proto__') values[name] = read;
    }
    return values;
  }

  private list(entry: Entry): unknown {
    const read = entry.children.map((item) => this.value(item));
    const isTable = entry.schema && child(entry.schema, 0)?.type === 'array';
    const isPoint = Array.isArray(entry.schema?.items);
    if (isTable || isPoint) return read.some((item) => item === undefined) ? undefined : read;
    const holdsMaps = entry.children.some((item) => item.kind === 'map');
    return holdsMaps ? read.map((item) => item ?? {}) : read.filter((item) => item !== undefined);
  }

  private quantity(entry: Entry, schema: FieldSchema): Quantity | undefined {
    if (!schema.dimension || entry.kind !== 'scalar') return undefined;
    const written = writtenOf(entry, this.text);
    const expected = expectedOf(schema);
    const read = parseQuantity(written, schema.dimension, expected);
    const told = (error: QuantityError) => ({
      message: error.message,
      ...placeAndFixes(entry, written, error, this.text),
    });
    if (!isQuantity(read)) {
      this.problems.push({ code: 'sheet/quantity', ...told(read) });
      this.unread.push(entry.path);
      return undefined;
    }
    const doubtful = doubt(read, expected);
    if (!isWithin(read, expected)) {
      this.problems.push({ code: 'sheet/out-of-range', ...told(outOfRange(read, schema, doubtful?.instead ?? [])) });
      this.unread.push(entry.path);
      return undefined;
    }
    if (doubtful) this.problems.push({ code: 'sheet/two-readings', severity: 'warning', ...told(doubtful) });
    return read;
  }
}

/** Where the error stands in the text of the sheet, and its edits. */
function placeAndFixes(entry: Entry, written: string, error: QuantityError, text: string) {
  const inner = innerRange(entry, text);
  const asWritten = text.slice(inner.start, inner.end) === written;
  const range = asWritten ? { start: inner.start + error.start, end: inner.start + error.end } : entry.value;
  const fixes = error.instead.map((instead) => ({
    title: `Write ${quoted(instead)}`,
    edits: [{ ...inner, text: instead }],
    preferred: error.instead.length === 1,
  }));
  return { range: range.end > range.start ? range : entry.value, fixes };
}

const expectations = new WeakMap<FieldSchema, Expected>();

/** What the schema says of a quantity: its range, and its examples as usual sizes. */
export function expectedOf(schema: FieldSchema): Expected {
  const known = expectations.get(schema);
  if (known) return known;
  const { allowed, likely, dimension = 'ratio-number', examples = [], title } = schema;
  const read = (text: unknown) => {
    const quantity = readQuantity(String(text), dimension);
    if (!isQuantity(quantity)) throw new Error(`\`${text}\` in the schema of ${title} cannot be read`);
    return quantity;
  };
  const found: Expected = {
    from: allowed ? read(allowed.from).value : Number.NEGATIVE_INFINITY,
    to: allowed ? read(allowed.to).value : Number.POSITIVE_INFINITY,
    usual: examples.map(read),
    ...(likely && { likely: { from: read(likely.from).value, to: read(likely.to).value } }),
  };
  expectations.set(schema, found);
  return found;
}

/** Whether a quantity with its tolerance is within what its field allows. */
export function isInRange(quantity: Quantity, schema: FieldSchema): boolean {
  return isWithin(quantity, expectedOf(schema));
}

function outOfRange({ text }: Quantity, { allowed, title }: FieldSchema, instead: string[]): QuantityError {
  const message = `${quoted(text)} is out of range: ${title?.toLowerCase()} runs from ${allowed?.from} to ${allowed?.to}.`;
  return { message, start: 0, end: text.length, instead };
}
