import type { Range, TextEdit } from '../../server/src/text/place.ts';

/** @throws Error with what is wrong, unless it holds */
export function must(holds: boolean, otherwise: string): asserts holds {
  if (!holds) throw new Error(otherwise);
}

/** In the text, in order, and no character cut in two. */
export function mustBeInside(text: string, { start, end }: Range, what: string): void {
  must(0 <= start && start <= end && end <= text.length, `${what}: ${start} to ${end} of ${text.length}`);
  for (const at of [start, end]) {
    const around = text.slice(Math.max(0, at - 1), at + 1);
    must(!/^[\ud800-\udbff][\udc00-\udfff]$/.test(around), `${what}: ${at} cuts a character in two`);
  }
}

/** Inside the text, in order, and none over another. */
export function mustFollow(text: string, edits: readonly TextEdit[], what: string): void {
  edits.forEach((edit, index) => {
    mustBeInside(text, edit, what);
    must(edit.start >= (edits[index - 1]?.end ?? 0), `${what}: edits overlap`);
  });
}

const WORDS = /\b(null|undefined|NaN|Infinity)\b|\[object Object\]/g;

/** No word of the machine that the user has not written. */
export function mustBePlain(shown: string, text: string): void {
  for (const [word] of shown.matchAll(WORDS)) must(text.includes(word), `"${word}" is shown: ${shown}`);
}
