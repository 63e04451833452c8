import { type Entry, isUnknown, wholeRange } from '../sheet/entry.ts';
import { echo } from '../text/echo.ts';
import type { Range } from '../text/place.ts';

/** A section, field or item of the outline; `selection` is inside `range`, and what is below it as well. */
export type OutlineItem = {
  name: string;
  detail: string | undefined;
  kind: 'stage' | 'section' | 'fields' | 'list' | 'choice' | 'truth' | 'value';
  range: Range;
  selection: Range;
  children: OutlineItem[];
};

/** Most items of one outline, so that a very long sheet does not stall the editor. */
const MOST_ITEMS = 2000;

/** The outline of a sheet: sections, parts and named items. */
export function outlineOf(text: string, root: Entry): OutlineItem[] {
  let left = MOST_ITEMS;

  function items(entries: readonly Entry[], around: Range): OutlineItem[] {
    const found: OutlineItem[] = [];
    for (const entry of entries) {
      if (left <= 0) break;
      const range = shownRange(text, entry);
      const isElsewhere = range.start < around.start || range.end > around.end;
      if (entry.inherited || isElsewhere || (!entry.key && entry.kind !== 'map')) continue;
      left--;
      found.push({
        name: echo(nameOf(entry)),
        detail: detailOf(text, entry),
        kind: kindOf(entry),
        range,
        selection: entry.key ?? range,
        children: items(entry.children, range),
      });
    }
    return found;
  }

  return items(root.children, { start: 0, end: text.length });
}

/** Key and value without the space after them. */
function shownRange(text: string, entry: Entry): Range {
  const { start, end } = wholeRange(entry);
  return { start, end: Math.max(entry.key?.end ?? start, start + text.slice(start, end).trimEnd().length) };
}

/** The value of a field; a number as it is written. */
function detailOf(text: string, entry: Entry): string | undefined {
  const { kind, scalar, value } = entry;
  if (kind !== 'scalar' || isUnknown(entry)) return undefined;
  return echo(typeof scalar === 'number' ? text.slice(value.start, value.end) : String(scalar));
}

function nameOf({ path, children, schema }: Entry): string {
  const step = path.at(-1);
  if (typeof step !== 'number') return String(step).trim() || '(empty)';
  const name = children.find((child) => ['name', 'rule', 'note'].includes(String(child.path.at(-1))))?.scalar;
  return String(name ?? `${schema?.title ?? 'item'} ${step + 1}`).trim() || `item ${step + 1}`;
}

function kindOf({ kind, schema, path }: Entry): OutlineItem['kind'] {
  if (path[0] === 'stages' && path.length === 2) return 'stage';
  if (kind === 'list') return 'list';
  if (kind === 'map') return path.length === 1 ? 'section' : 'fields';
  if (schema?.enum) return 'choice';
  return schema?.type === 'boolean' ? 'truth' : 'value';
}
