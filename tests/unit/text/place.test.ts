import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { endOfLine } from '../../../server/src/text/lines.ts';
import { marked } from '../../../server/src/text/place.ts';

/** The text that is marked for a stretch. */
function mark(text: string, start: number, end: number): string {
  const range = marked(text, { start, end });
  return text.slice(range.start, range.end);
}

describe('a stretch that is marked', () => {
  it.each([
    ['a stretch in a line', 'abc def', 4, 7, 'def'],
    ['the rest of its first line', 'abc\ndef', 1, 7, 'bc'],
    ['the rest of a line that ends with CRLF', 'abc\r\ndef', 1, 8, 'bc'],
    ['the rest of a line that a lone CR ends', 'abc\rdef', 1, 7, 'bc'],
    ['the character before, where nothing is written', 'key:\n', 4, 4, ':'],
    ['the last character above, on an empty line', 'key:\n\n', 5, 5, ':'],
    ['both halves of a character', 'a😀b', 2, 3, '😀'],
    ['both halves of the character before', 'a😀', 3, 3, '😀'],
    ['the line break of a text without characters', '\n', 0, 0, '\n'],
    ['nothing in an empty text', '', 0, 0, ''],
    ['what is inside the text of a stretch that is not', 'abc', -3, 99, 'abc'],
  ])('is %s', (_, text, start, end, expected) => {
    expect(mark(text, start, end)).toBe(expected);
  });

  it('is inside the text, on one line of the editor and never empty', () => {
    const piece = fc.oneof(
      fc.constantFrom('\r', '\n', '\r\n', '😀', 'a', ' ', ':'),
      fc.string({ unit: 'binary', maxLength: 3 }),
    );
    fc.assert(
      fc.property(fc.array(piece, { minLength: 1, maxLength: 12 }), fc.nat(20), fc.nat(20), (pieces, start, length) => {
        const text = pieces.join('') || 'a';
        const range = marked(text, { start, end: start + length });
        expect(range.start).toBeGreaterThanOrEqual(0);
        expect(range.end).toBeLessThanOrEqual(text.length);
        const document = TextDocument.create('', '', 0, text);
        const [from, to] = [document.positionAt(range.start), document.positionAt(range.end)];
        expect(from).not.toEqual(to);
        if (text.slice(range.start, range.end).trim() !== '') expect(to.line).toBe(from.line);
      }),
      { numRuns: 400 },
    );
  });
});

describe('the end of a line', () => {
  it('is where the editor sees it', () => {
    expect([0, 2, 4, 6, 9].map((offset) => endOfLine('a\rb\nc\r\nd', offset))).toEqual([1, 3, 5, 6, 8]);
  });
});
