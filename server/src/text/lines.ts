/** Where the line of an offset begins; a lone CR ends a line as well. */
export function startOfLine(text: string, offset: number): number {
  if (offset <= 0) return 0;
  const before = text.lastIndexOf('\n', offset - 1);
  const alone = text.lastIndexOf('\r', offset - 1);
  if (alone <= before) return before + 1;
  return text[alone + 1] === '\n' && alone + 1 === offset ? startOfLine(text, alone) : alone + 1;
}

const END = /[\r\n]/g;

/** Where the line of an offset ends, before its line end. */
export function endOfLine(text: string, offset: number): number {
  END.lastIndex = offset;
  return END.exec(text)?.index ?? text.length;
}

/** Where the line after the one of an offset begins. */
export function nextLine(text: string, offset: number): number {
  const end = endOfLine(text, offset);
  return Math.min(text.length, end + (text.startsWith('\r\n', end) ? 2 : 1));
}

/** The line end a text uses. */
export function newline(text: string): string {
  return /\r\n|\n|\r/.exec(text)?.[0] ?? '\n';
}

/** A line and a column, both from 1; the column in UTF-16 units. */
export type Position = { line: number; column: number };

const LF = 0x0a;
const CR = 0x0d;

function startsIn(text: string): number[] {
  const starts = [0];
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === LF || (code === CR && text.charCodeAt(index + 1) !== LF)) starts.push(index + 1);
  }
  return starts;
}

/** Where the offsets of a text are by line and column. */
export function positionsIn(text: string): (offset: number) => Position {
  const starts = startsIn(text);
  return (offset) => {
    let low = 0;
    for (let high = starts.length; high - low > 1; ) {
      const middle = (low + high) >> 1;
      if ((starts[middle] as number) <= offset) low = middle;
      else high = middle;
    }
    return { line: low + 1, column: offset - (starts[low] as number) + 1 };
  };
}
