import type { BuildSheet } from '../generated/build-sheet.ts';
import { validateSheet } from '../generated/validate.js';
import { commentsOf } from '../sheet/comments.ts';
import { plain } from '../sheet/compose.ts';
import { differing, isWrittenTheSame } from '../sheet/differing.ts';
import { applyEdits, type Change, editsFor, type NewValue } from '../sheet/edit.ts';
import { readText } from '../sheet/read.ts';
import { root } from '../sheet/schema.ts';
import { threeWays } from '../sheet/three-ways.ts';

/** Two changes of one text as one text, or why they cannot be: the fields that both change, or what would be lost. */
export type MergedText = { text: string } | { conflicts: readonly string[] };

type Read = { text: string; values: unknown; isWhole: boolean };

/**
 * Merges two changes of a sheet field by field, so that fields on one line or next to each other do not collide. `byLines`
 * is what a merge by lines gives, where it gives something: it is taken where it says the same.
 */
export function mergedText(base: string, ours: string, theirs: string, byLines: string | undefined): MergedText {
  const [b, o, t] = [read(base), read(ours), read(theirs)];
  if (!b.isWhole || !o.isWhole || !t.isWhole) return { conflicts: ['a text that cannot be read as YAML'] };
  const { values, conflicts } = threeWays(b.values, o.values, t.values);
  if (conflicts.length > 0) return { conflicts: [...new Set(conflicts)] };
  const known = byLines === undefined ? undefined : read(byLines);
  if (known?.isWhole && saysOf(known.values) === saysOf(values)) return { text: known.text };
  const text = withValues(o, values, { base, other: theirs }) ?? withValues(t, values, { base, other: ours });
  return text === undefined ? { conflicts: ['comments or the way a list is written, on both sides'] } : { text };
}

function read(text: string): Read {
  const { root: entries, broken } = readText<BuildSheet>(text, root, validateSheet);
  return { text, values: plain(entries), isWhole: !broken };
}

/** What values say, in whatever order fields are written. */
function saysOf(values: unknown): string {
  return JSON.stringify(values, (_, value) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).toSorted(([one], [other]) => (one < other ? -1 : 1)))
      : value,
  );
}

/** One side's text with the values of both; nothing where a comment of the other side would be lost. */
function withValues(
  { text, values: own }: Read,
  values: unknown,
  { base, other }: { base: string; other: string },
): string | undefined {
  const changes = changesTo(own, values);
  const { root: entries } = readText<BuildSheet>(text, root, validateSheet);
  const edits = changes && editsFor({ text, root: entries }, changes);
  if (!edits) return undefined;
  const result = applyEdits(text, edits);
  const written = read(result);
  if (!written.isWhole || saysOf(written.values) !== saysOf(values)) return undefined;
  const [before, now] = [commentsOf(base), commentsOf(result)];
  const isKept = commentsOf(other).every((comment) => before.includes(comment) || now.includes(comment));
  return isKept ? result : undefined;
}

/** The changes that make some values of others; nothing where items of a list would have to move. */
function changesTo(from: unknown, to: unknown): Change[] | undefined {
  const all = differing(from, to, isWrittenTheSame);
  if (all.some(({ kind }) => kind === 'order')) return undefined;
  let added = 0;
  return all.map(({ kind, was, after, before }): Change => {
    if (after === undefined) return { remove: was };
    if (kind === 'field' || before !== undefined) return { set: was, to: after as NewValue };
    const list = was.slice(0, -1);
    return { set: [...list, Number.MAX_SAFE_INTEGER - added++], to: after as NewValue };
  });
}
