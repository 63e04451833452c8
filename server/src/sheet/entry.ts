import type { Range } from '../text/place.ts';
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
  /** The scalar as YAML reads it. */
  scalar: unknown;
  /** How a scalar is quoted. */
  quote: '"' | "'" | undefined;
  children: Entry[];
};

/** A path as one string: `fuel-system.pump.flow-at[0]`. */
export function pathText(path: Path): string {
  return path.reduce<string>(
    (text, step) => (typeof step === 'number' ? `${text}[${step}]` : text ? `${text}.${step}` : step),
    '',
  );
}

/** Range from the key, if there is one, to the end of the value. */
export function wholeRange({ key, value }: Entry): Range {
  return { start: key?.start ?? value.start, end: Math.max(value.end, key?.end ?? 0) };
}

/** The innermost entry whose key or value holds the offset. */
export function entryAt(root: Entry, offset: number): Entry {
  const inner = root.children.findLast((child) => {
    const { start, end } = wholeRange(child);
    return start <= offset && offset <= end;
  });
  return inner ? entryAt(inner, offset) : root;
}
