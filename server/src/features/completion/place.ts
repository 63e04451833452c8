import { TooLarge } from '../../sheet/compose.ts';
import type { Entry } from '../../sheet/entry.ts';
import { parse, refusal } from '../../sheet/parse.ts';
import type { FieldSchema } from '../../sheet/schema.ts';
import type { Range } from '../../text/place.ts';

/** Where something can be written: a key of `parent`, or the value of `entry`. */
export type Place = {
  isKey: boolean;
  entry: Entry;
  parent: Entry;
  /** What would be replaced: the word of a key, or a value within its quotes. Never more than one line. */
  range: Range;
  /** What stands there before the cursor and after it. */
  written: string;
  rest: string;
  /** Whether the colon after a key stands already. */
  hasColon: boolean;
  /** Column of the first character to replace. */
  column: number;
};

/** A stretch of a text, and all that a mark has to take the place of: with the quotes of a value. */
type Stretch = { range: Range; whole: Range };

type Line = { start: number; before: string; after: string };

const HERE = '__here__';

/** The place at an offset, or nothing within comments, texts of several lines and what the schema does not know. */
export function placeAt(text: string, offset: number, schema: FieldSchema): Place | undefined {
  const line = lineAt(text, offset);
  if (/(?:^|\s)#/.test(line.before)) return undefined;
  const opening = Math.max(...['{', '[', ','].map((mark) => line.before.lastIndexOf(mark))) + 1;
  const colon = lastColon(line.before, opening);
  return (
    (colon === undefined ? keyPlace(text, line, opening, schema) : undefined) ??
    valuePlace(text, line, colon ?? afterDashes(line.before, opening), opening > 0, schema)
  );
}

function lineAt(text: string, offset: number): Line {
  const head = text.slice(0, offset);
  const mark = text.startsWith('\uFEFF') && offset > 0 ? 0 : -1;
  const start = Math.max(head.lastIndexOf('\n'), head.lastIndexOf('\r'), mark) + 1;
  const length = text.slice(offset).search(/[\r\n]/);
  return {
    start,
    before: head.slice(start),
    after: length < 0 ? text.slice(offset) : text.slice(offset, offset + length),
  };
}

/** Where the value after the last colon begins, if a blank follows the colon. */
function lastColon(before: string, from: number): number | undefined {
  for (let at = before.length - 2; at >= from; at--) {
    if (before[at] !== ':' || !/\s/.test(before[at + 1] ?? '')) continue;
    return before.length - before.slice(at + 1).trimStart().length;
  }
  return undefined;
}

function afterDashes(before: string, from: number): number {
  return from + (/^\s*(?:-\s+)*/.exec(before.slice(from))?.[0].length ?? 0);
}

function keyPlace(text: string, line: Line, opening: number, schema: FieldSchema): Place | undefined {
  const column = afterDashes(line.before, opening);
  const written = line.before.slice(column);
  if (!/^[\w/-]*$/.test(written)) return undefined;
  const rest = /^[\w/-]*/.exec(line.after)?.[0] ?? '';
  const hasColon = /^[ \t]*:/.test(line.after.slice(rest.length));
  const offset = line.start + line.before.length;
  const range = { start: line.start + column, end: offset + rest.length };
  const marked = text.slice(0, range.start) + (hasColon ? HERE : `${HERE}: `) + text.slice(range.end);
  const found = find(marked, schema, ({ path }, parent) => path.at(-1) === HERE && takesFields(parent.schema));
  return found && { ...found, isKey: true, range, written, rest, hasColon, column };
}

function takesFields(schema: FieldSchema | undefined): boolean {
  return schema?.properties !== undefined || typeof schema?.additionalProperties === 'object';
}

function valuePlace(text: string, line: Line, column: number, isFlow: boolean, schema: FieldSchema): Place | undefined {
  const offset = line.start + line.before.length;
  const stretch = valueStretch(line, column, isFlow);
  if (!stretch) return undefined;
  const marked = `${text.slice(0, stretch.whole.start)} ${HERE}${text.slice(stretch.whole.end)}`;
  const found = find(marked, schema, ({ scalar }) => scalar === HERE);
  if (!found) return undefined;
  if (found.parent.flow && !isFlow) return valuePlace(text, line, column, true, schema);
  const { range } = stretch;
  const written = text.slice(range.start, offset);
  return { ...found, isKey: false, range, written, rest: text.slice(offset, range.end), hasColon: true, column };
}

/**
 * From where a value begins to what ends it: its quote, a comment, in braces also a comma or a bracket. Nothing behind a
 * quote that is closed.
 */
function valueStretch({ start, before, after }: Line, column: number, isFlow: boolean): Stretch | undefined {
  const from = start + column;
  const offset = start + before.length;
  const quote = /^["']/.exec(before.slice(column))?.[0];
  if (quote && before.includes(quote, column + 1)) return undefined;
  const closing = quote ? after.indexOf(quote) : -1;
  if (closing >= 0) {
    const end = offset + closing;
    return { range: { start: from + 1, end }, whole: { start: from, end: end + 1 } };
  }
  const value = isFlow ? /^[^,}\]#]*/.exec(after) : /^(?:(?! #).)*/.exec(after);
  const end = offset + (value?.[0] ?? '').trimEnd().length;
  return { range: { start: from + (quote ? 1 : 0), end }, whole: { start: from, end } };
}

/** The first entry of a marked text that is the marked one, and what it stands in. */
function find(marked: string, schema: FieldSchema, isHere: (entry: Entry, parent: Entry) => boolean) {
  const search = (parent: Entry): { entry: Entry; parent: Entry } | undefined => {
    for (const entry of parent.children) {
      const found = isHere(entry, parent) ? { entry, parent } : search(entry);
      if (found) return found;
    }
    return undefined;
  };
  const root = parsed(marked, schema);
  return root && search(root);
}

function parsed(text: string, schema: FieldSchema): Entry | undefined {
  if (refusal(text)) return undefined;
  try {
    return parse(text, schema).root;
  } catch (error) {
    if (error instanceof TooLarge) return undefined;
    throw error;
  }
}
