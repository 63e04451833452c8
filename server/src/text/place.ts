import { endOfLine } from './lines.ts';

/** A stretch of text, as UTF-16 offsets. */
export type Range = { start: number; end: number };

/** A replacement of one stretch of text. */
export type TextEdit = Range & { text: string };

/** A stretch of one of several texts. */
export type Place = { uri: string; range: Range };

/** Whether two stretches touch. */
export function touches(one: Range, other: Range): boolean {
  return one.start <= other.end && other.start <= one.end;
}

/**
 * A stretch that an editor can mark: on one line, not empty, no character cut in two. Nothing written there is marked at
 * the character before it, else at the first one; in a text of empty lines at a line end.
 */
export function marked(text: string, { start, end }: Range): Range {
  const from = Math.max(0, Math.min(start, text.length));
  const to = Math.max(from, Math.min(end, endOfLine(text, from)));
  if (to > from) return wholeCharacters(text, { start: from, end: to });
  const before = text.slice(0, from).trimEnd().length;
  if (before > 0) return wholeCharacters(text, { start: before - 1, end: before });
  const below = text.search(/[^\r\n]/);
  if (below >= 0) return wholeCharacters(text, { start: below, end: below + 1 });
  return { start: 0, end: text.startsWith('\r\n') ? 2 : Math.min(1, text.length) };
}

function wholeCharacters(text: string, { start, end }: Range): Range {
  return { start: isSecondHalf(text, start) ? start - 1 : start, end: isSecondHalf(text, end) ? end + 1 : end };
}

/** Whether the offset is inside a surrogate pair. */
function isSecondHalf(text: string, offset: number): boolean {
  return /^[\ud800-\udbff][\udc00-\udfff]$/.test(text.slice(offset - 1, offset + 1));
}
