import type { BuildSheet } from '../../../server/src/generated/build-sheet.ts';
import { validateSheet } from '../../../server/src/generated/validate.js';
import type { Range } from '../../../server/src/sheet/entry.ts';
import { readText, type Sheet } from '../../../server/src/sheet/read.ts';
import { root } from '../../../server/src/sheet/schema.ts';

/** A text without its guillemets, and the stretches that stood between them in the order they begin. */
export function unmarked(marked: string): { text: string; ranges: Range[] } {
  const ranges: Range[] = [];
  const open: Range[] = [];
  let text = '';
  for (const character of marked) {
    if (character === '«') {
      const range = { start: text.length, end: text.length };
      ranges.push(range);
      open.push(range);
    } else if (character === '»') {
      const range = open.pop();
      if (!range) throw new Error(`${marked}: » without «`);
      range.end = text.length;
    } else text += character;
  }
  if (open.length > 0) throw new Error(`${marked}: « without »`);
  return { text, ranges };
}

/** The text with guillemets around the stretches. */
export function withMarks(text: string, ranges: readonly Range[]): string {
  const marks = ranges.flatMap(({ start, end }, index) => [
    { at: start, mark: '«', order: index },
    { at: end, mark: '»', order: end > start ? -1 : index + 0.5 },
  ]);
  return marks
    .toSorted((one, other) => other.at - one.at || other.order - one.order)
    .reduce((marked, { at, mark }) => marked.slice(0, at) + mark + marked.slice(at), text);
}

/** A sheet read from text. */
export function read(text: string): Sheet {
  return readText<BuildSheet>(text, root, validateSheet);
}
