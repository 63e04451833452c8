/** Where the line of an offset begins. */
export function startOfLine(text: string, offset: number): number {
  return text.slice(0, offset).lastIndexOf('\n') + 1;
}

/** Where the line of an offset ends. */
export function endOfLine(text: string, offset: number): number {
  const end = text.slice(offset).search(/\r?\n/);
  return end < 0 ? text.length : offset + end;
}
