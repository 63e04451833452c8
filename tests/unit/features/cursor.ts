/** A text without its cursor mark `‸`, and the offset of the mark. */
export function atCursor(marked: string): { text: string; offset: number } {
  const offset = marked.indexOf('‸');
  if (offset < 0 || marked.indexOf('‸', offset + 1) >= 0) throw new Error(`${marked}: no single cursor`);
  return { text: marked.replace('‸', ''), offset };
}
