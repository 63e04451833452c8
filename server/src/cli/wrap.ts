import stringWidth from 'string-width';

/** A text of one paragraph in lines of so many columns at most; a number stays with its unit, a longer word stands alone. */
export function wrapped(text: string, columns: number): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/(?<!\d) /)) {
    if (line !== '' && stringWidth(line) + 1 + stringWidth(word) > columns) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].join('\n');
}

/** The columns a text takes. */
export function widthOf(text: string): number {
  return stringWidth(text);
}

/** A text of the user as a terminal may show it: nothing in it moves the cursor or turns the direction of writing. */
export function harmless(text: string): string {
  return text.replaceAll('\t', ' ').replaceAll(/[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu, '\ufffd');
}
