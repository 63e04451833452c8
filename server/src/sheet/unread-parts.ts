import { endOfLine, startOfLine } from '../text/lines.ts';
import type { Break } from './broken-stretch.ts';
import { columnOf } from './broken-stretch.ts';
import { type Entry, wholeRange } from './entry.ts';
import type { Path } from './schema.ts';

/** A place in the tree that lines left out belong to: the entry they stand in, and their own name if it can be told. */
export type Owner = { parent: Entry; name: string | undefined };

/** What lines that were left out belong to, by the column they begin at; more than one where the column fits none. */
export function ownersOf({ start, end, indent }: Break, text: string, root: Entry): Owner[] {
  const column = indent ?? columnOf(text, start);
  const open = openAt(root, start, end, text);
  const name = /^\s*(?:- +)*([A-Za-z][\w-]*)\s*:(?:\s|$)/.exec(text.slice(start, endOfLine(text, start)))?.[1];
  const item = open.find((entry) => isItemHere(entry, start, end));
  if (item) return [{ parent: item, name }];
  const fitting = open.find((entry) => fieldColumn(entry, text) === column);
  if (fitting) return [{ parent: fitting, name }];
  const empty = open.at(-1);
  if (empty?.kind === 'empty' && empty.key && column > empty.key.start - startOfLine(text, empty.key.start))
    return [{ parent: empty, name }];
  const below = open.findLast((entry) => (fieldColumn(entry, text) ?? -1) < column) ?? root;
  const above = open.find((entry) => (fieldColumn(entry, text) ?? -1) > column);
  return [below, ...(above ? [above] : [])].map((parent) => ({ parent, name: undefined }));
}

/** The paths whose values may stand in the lines. */
export function unreadPaths(owners: readonly Owner[]): Path[] {
  return owners.map(({ parent, name }) => (name === undefined ? parent.path : [...parent.path, name]));
}

/** The entries that are open where the lines begin, from the outermost in. */
function openAt(root: Entry, start: number, end: number, text: string): Entry[] {
  const open = [root];
  for (let entry: Entry | undefined = root; entry; ) {
    const last: Entry | undefined = entry.children.findLast((inner) => {
      const from = wholeRange(inner).start;
      return (
        !inner.inherited &&
        !inner.flow &&
        (from < start || (from < end && isItemHere(inner, start, end)) || isItemBelow(inner, start, end, text))
      );
    });
    if (last && (last.kind === 'map' || last.kind === 'list' || last.kind === 'empty')) open.push(last);
    entry = last;
  }
  return open;
}

/** Whether an entry is the item whose dash stayed when its line was left out. */
function isItemHere({ key, kind, value }: Entry, start: number, end: number): boolean {
  return !key && kind !== 'scalar' && kind !== 'list' && value.start >= start && value.start <= end;
}

/** Whether an entry is the rest of the item whose first line was left out. */
function isItemBelow({ key, kind, value }: Entry, start: number, end: number, text: string): boolean {
  return (
    !key &&
    kind === 'map' &&
    value.start > end &&
    /^\s*- /.test(text.slice(start, end)) &&
    text.slice(end, value.start).trim() === ''
  );
}

function fieldColumn({ kind, children }: Entry, text: string): number | undefined {
  const key = kind === 'map' ? children.find(({ inherited }) => !inherited)?.key : undefined;
  return key && key.start - startOfLine(text, key.start);
}
