import type { TextEdit } from './place.ts';

/** The one edit that turns a text into another, without the beginning and end they share. */
export function difference(before: string, after: string): TextEdit[] {
  if (before === after) return [];
  const shorter = Math.min(before.length, after.length);
  let start = 0;
  while (start < shorter && before[start] === after[start]) start++;
  if (isHighSurrogate(before, start - 1)) start--;
  let tail = 0;
  while (tail < shorter - start && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail++;
  if (isHighSurrogate(before, before.length - tail - 1)) tail--;
  return [{ start, end: before.length - tail, text: after.slice(start, after.length - tail) }];
}

function isHighSurrogate(text: string, index: number): boolean {
  const code = text.charCodeAt(index);
  return code >= 0xd800 && code <= 0xdbff;
}
