import type { TextEdit } from './place.ts';

/** The text after the edits, which come in order and do not overlap. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  let result = '';
  let from = 0;
  for (const { start, end, text: inserted } of edits) {
    result += text.slice(from, start) + inserted;
    from = end;
  }
  return result + text.slice(from);
}
