import type { Range } from '../text/place.ts';
import type { Part } from './part.ts';
import type { FieldSchema, Path } from './schema.ts';

export type { Range } from '../text/place.ts';

/** One field or item of a sheet as it stands in the text. */
export type Entry = {
  path: Path;
  /** The key, or nothing for an item of a list. */
  key: Range | undefined;
  /** The value; empty, right after the key, where nothing is written. */
  value: Range;
  schema: FieldSchema | undefined;
  kind: 'map' | 'list' | 'scalar' | 'empty';
  /** A mapping or list written with braces or brackets. */
  flow: boolean;
  /** Taken over from elsewhere by a merge key; a change belongs beside it, not in it. */
  inherited: boolean;
  /** Where the text stands that an alias takes over. */
  anchored: Range | undefined;
  /** The scalar as YAML reads it. */
  scalar: unknown;
  /** How a scalar is quoted. */
  quote: '"' | "'" | undefined;
  children: Entry[];
  /** What is remembered of it, where its text is read by itself. */
  part: Part | undefined;
};

/** Which entry it is, and what stands there. */
type Site = Pick<Entry, 'path' | 'key' | 'schema'> & { inherited?: boolean };
type Standing = Pick<Entry, 'kind' | 'value'> & Partial<Pick<Entry, 'flow' | 'scalar' | 'quote' | 'children'>>;

/** An entry nothing is remembered of. One shape for all of them keeps reading fast. */
export function newEntry(
  { path, key, schema, inherited = false }: Site,
  { kind, value, flow = false, scalar, quote, children = [] }: Standing,
): Entry {
  return {
    path,
    key,
    value,
    schema,
    kind,
    flow,
    inherited,
    anchored: undefined,
    scalar,
    quote,
    children,
    part: undefined,
  };
}

/** A path as one string: `fuel-system.pump.flow-at[0]`. */
export function pathText(path: Path): string {
  return path.reduce<string>(
    (text, step) => (typeof step === 'number' ? `${text}[${step}]` : text ? `${text}.${step}` : step),
    '',
  );
}

/** Whether nothing is said: an empty field, or YAML's word for nothing. */
export function isUnknown({ kind, scalar }: Entry): boolean {
  return kind === 'empty' || (kind === 'scalar' && scalar === null);
}

/** The text of a scalar within its quotes. */
export function innerRange({ value, quote }: Entry, text: string): Range {
  if (!quote) return value;
  const closed = text[value.end - 1] === quote && value.end - 1 > value.start;
  return { start: value.start + 1, end: closed ? value.end - 1 : value.end };
}

/** A scalar as a text: what is written, whatever else YAML would make of it. */
export function writtenOf(entry: Entry, text: string): string {
  if (typeof entry.scalar === 'string') return entry.scalar;
  const { start, end } = innerRange(entry, text);
  return text.slice(start, end);
}

/** Range from the key, if there is one, to the end of the value. */
export function wholeRange({ key, value }: Entry): Range {
  return { start: key?.start ?? value.start, end: Math.max(value.end, key?.end ?? 0) };
}

const named = new WeakMap<Entry, Map<unknown, Entry>>();

/** The field of that name; of one written twice the last, as the schema check sees it. */
export function childOf(parent: Entry, name: string): Entry | undefined {
  let byName = named.get(parent);
  if (!byName) {
    byName = new Map(parent.children.map((inner) => [inner.path.at(-1), inner]));
    named.set(parent, byName);
  }
  return byName.get(name);
}

/** The innermost entry whose key or value holds the offset. */
export function entryAt(root: Entry, offset: number): Entry {
  const inner = root.children.findLast((child) => {
    const { start, end } = wholeRange(child);
    return start <= offset && offset <= end;
  });
  return inner ? entryAt(inner, offset) : root;
}
