import { type Entry, innerRange, wholeRange } from '../sheet/entry.ts';
import { endOfLine, startOfLine } from '../text/lines.ts';
import type { Range } from '../text/place.ts';

/** Ever larger stretches around an offset: word, value, field, section, up to the whole text. */
export function selectionsAt(text: string, root: Entry, offset: number): Range[] {
  const found = [...wordsAt(text, offset)];
  for (const entry of around(root, offset).toReversed()) {
    const value = { start: entry.value.start, end: trimmedEnd(text, entry.value) };
    const whole = wholeRange(entry);
    if (entry.kind === 'scalar') found.push(innerRange(entry, text));
    if (entry.flow) found.push({ start: value.start + 1, end: value.end - 1 });
    found.push(...(entry.key ? [entry.key] : []), value, { start: whole.start, end: trimmedEnd(text, whole) });
  }
  found.push({ start: 0, end: text.length });
  return nested(found, offset);
}

function wordsAt(text: string, offset: number): Range[] {
  const start = startOfLine(text, offset);
  const end = endOfLine(text, offset);
  const line = text.slice(start, end);
  const at = offset - start;
  const word = [...line.matchAll(/[\p{L}\p{N}_.+-]+/gu)].find(
    ({ 0: { length }, index }) => index <= at && at <= index + length,
  );
  const comment = /(?:^|\s)(#.*)$/.exec(line);
  const from = comment ? line.length - (comment[1] as string).length : line.length;
  return [
    ...(word ? [{ start: start + word.index, end: start + word.index + word[0].length }] : []),
    ...(comment && from <= at ? [{ start: start + from, end }] : []),
  ];
}

/** The entries that hold an offset, the outermost first. */
function around(root: Entry, offset: number): Entry[] {
  const inner = root.children.findLast((child) => {
    const { start, end } = wholeRange(child);
    return !child.inherited && start <= offset && offset <= end;
  });
  return inner ? [inner, ...around(inner, offset)] : [];
}

/** Each strictly larger than the one before, and around the offset. */
function nested(ranges: readonly Range[], offset: number): Range[] {
  const chain: Range[] = [];
  for (const range of ranges) {
    const last = chain.at(-1);
    const holds = range.start <= offset && offset <= range.end && range.start < range.end;
    const isLarger =
      !last ||
      (range.start <= last.start && last.end <= range.end && (range.start < last.start || last.end < range.end));
    if (holds && isLarger) chain.push(range);
  }
  return chain;
}

function trimmedEnd(text: string, { start, end }: Range): number {
  return start + text.slice(start, end).trimEnd().length;
}
