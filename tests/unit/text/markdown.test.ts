import fc from 'fast-check';
import { lexer, type Token, walkTokens } from 'marked';
import { describe, expect, it } from 'vitest';
import { codeSpan, plainly } from '../../../server/src/text/markdown.ts';

/** Kinds of the stretches a Markdown reader, the one VS Code uses, makes of a text after another. */
function kinds(markdown: string): string[] {
  const found = new Set<string>();
  walkTokens(lexer(`So: ${markdown}`, { gfm: true }), (token: Token) => {
    found.add(token.type);
  });
  return [...found].filter((kind) => !['paragraph', 'text', 'escape', 'space'].includes(kind));
}

/** What is read of a Markdown text, without its markup. */
function read(markdown: string): string {
  let text = '';
  walkTokens(lexer(markdown, { gfm: true }), (token: Token) => {
    if (
      token.type === 'escape' ||
      token.type === 'codespan' ||
      (token.type === 'text' && !('tokens' in token && token.tokens))
    )
      text += token.text;
  });
  return text;
}

const hostile = [
  '![x](https://example.com/pixel.png)',
  '![x][ref]',
  '[click](https://example.com)',
  '<img src="https://example.com/pixel.png">',
  '<script>alert(1)</script>',
  '<https://example.com>',
  'https://example.com/x',
  'www.example.com',
  'a@example.com',
  '`![x](y)',
  '**bold** _slanted_ ~~gone~~',
  'a | b | c',
  '&lt;b&gt; &#33;',
  '\\![x](y)',
  '$(alert) $x$',
];

describe('a text of the user in Markdown', () => {
  it.each(hostile)('%j is only text', (text) => {
    expect(kinds(plainly(text))).toEqual([]);
    expect(read(plainly(text))).toBe(text);
  });

  it.each(hostile)('%j as code is only code', (text) => {
    expect(kinds(codeSpan(text))).toEqual(['codespan']);
    expect(read(codeSpan(text))).toBe(text);
  });

  it('is on one line, in the direction it is written', () => {
    expect(plainly('a\nb\r\nc\u2028d\u202ee')).toBe('a b c d e');
    expect(codeSpan('a\n\n# b')).toBe('`a # b`');
  });

  it('is only text whatever it is made of', () => {
    const piece = fc.constantFrom(
      ...[
        '!',
        '[',
        ']',
        '(',
        ')',
        '<',
        '>',
        '`',
        '``',
        '*',
        '_',
        '~',
        '|',
        '\\',
        '&',
        '#',
        '-',
        ':',
        '//',
        'http',
        'www',
        '.',
        '@',
      ],
      ...[
        'https://a.de',
        'ftp://a',
        'a@b.de',
        'mailto:',
        '\n',
        '\n\n',
        ' ',
        '  ',
        'x',
        '1.',
        '=',
        '"',
        '&amp;',
        '$',
        '{',
        '}',
      ],
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
        expect(kinds(plainly(pieces.join('')))).toEqual([]);
        expect(kinds(codeSpan(pieces.join('')))).toEqual(['codespan']);
      }),
      { numRuns: 3000 },
    );
  });
});
