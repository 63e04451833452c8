import type { Entry } from '../sheet/entry.ts';
import { endOfLine } from '../text/lines.ts';
import type { Range } from '../text/place.ts';

/** A stretch over several lines that can be folded. */
export type Fold = Range & { comment: boolean };

const MOST_FOLDS = 5000;

/** Sections, items and runs of comment lines that can be folded. */
export function foldsOf(text: string, root: Entry): Fold[] {
  const folds: Fold[] = [];

  function add({ kind, inherited, key, value, children }: Entry) {
    if (folds.length >= MOST_FOLDS) return;
    if ((kind === 'map' || kind === 'list') && !inherited) {
      const start = key?.start ?? value.start;
      const end = value.start + text.slice(value.start, value.end).trimEnd().length;
      if (endOfLine(text, start) < end) folds.push({ start, end, comment: false });
    }
    children.forEach(add);
  }

  root.children.forEach(add);
  return [...folds, ...commentFolds(text)].slice(0, MOST_FOLDS);
}

function commentFolds(text: string): Fold[] {
  const runs = text.matchAll(/(?<=^|[\r\n])[ \t]*#[^\r\n]*(?:(?:\r\n|\r|\n)[ \t]*#[^\r\n]*)+/g);
  return [...runs].map(({ 0: run, index }) => ({ start: index, end: index + run.length, comment: true }));
}
