import { parsedRun } from './chunk-run.ts';
import { type Cut, cutsOf } from './cuts.ts';
import { childOf, isUnknown, writtenOf } from './entry.ts';
import { moved } from './moved.ts';

/** What an item of a list is called, if it is, and the stretch of text to read for it. */
export type Named = { id: string | undefined; text: string; cut: Cut };

/** Items of the version before, in their order. */
type Known = readonly { id: string; text: string; stretch: object }[];

/**
 * The items of a list at the margin, each by its `id`, without reading them: their lines are looked at, and only an item
 * whose lines do not tell is parsed; one that stands as it did in the version before is what it was. Nothing where the text must be read as a whole.
 * @throws TooLarge
 */
export function itemIds(text: string, list: string, all = cutsOf(text), known: Known = []): Named[] | undefined {
  const cuts = all?.filter(({ name }) => name === list) ?? [];
  const [head, ...items] = cuts;
  if (head?.kind !== 'head' || items.some(({ kind }) => kind !== 'item')) return undefined;
  const named: Named[] = [];
  const later = known.length - items.length;
  for (const [index, cut] of items.entries()) {
    const same = [known[index], known[index + later]].find((one) => one && isThere(text, cut, one));
    const item = same ? same.text : text.slice(cut.start, cut.end);
    const found = same ?? idInBraces(item) ?? idOnLine(item) ?? idRead(item, cut);
    if (!found) return undefined;
    named.push({ id: found.id, text: item, cut });
  }
  return named;
}

function isThere(text: string, { start, end, stretch }: Cut, item: Known[number]): boolean {
  return stretch === item.stretch || (end - start === item.text.length && text.startsWith(item.text, start));
}

type Found = { id: string | undefined };

/** `- { id: pump-12, ... }`. */
function idInBraces(item: string): Found | undefined {
  const [, id] = /^ *- +\{ *id: +(?!null\b)([\w.-]+) *[,}]/i.exec(item) ?? [];
  return id === undefined ? undefined : { id };
}

/** `id: pump-12` on a line of its own, at the column of the item and beside nothing that may run over several lines. */
function idOnLine(item: string): Found | undefined {
  const [line = '', lead = '', indent = lead, id] =
    /^( *- +)(?:[\w-][^"'|>&*!{[]*\n( +))?id: +(?!null\b)([\w.-]+) *(?: #.*)?(?:\r?\n|$)/i.exec(item) ?? [];
  const next = /^\s*?( *)[^\s]/.exec(item.slice(line.length))?.[1] ?? '';
  return id !== undefined && indent.length === lead.length && next.length <= lead.length ? { id } : undefined;
}

function idRead(item: string, cut: Cut): Found | undefined {
  const run = parsedRun(item, [{ ...cut, start: 0, end: item.length }], {});
  const [entry] = run?.entries ?? [];
  if (!run || !entry || run.errors.length > 0) return undefined;
  const id = childOf(moved(entry, run.from, entry.path), 'id');
  return { id: id?.kind === 'scalar' && !isUnknown(id) ? writtenOf(id, item) : undefined };
}
