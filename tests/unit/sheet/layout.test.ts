import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDocument, stringify } from 'yaml';
import { commentsOf } from '../../../server/src/sheet/comments.ts';
import { formatEdits } from '../../../server/src/sheet/layout.ts';
import { applyEdits } from '../../../server/src/text/apply-edits.ts';
import { randomSheet } from '../analysis/random-sheet.ts';

/** The text formatted; where it is left alone, as it is. */
function formatted(text: string): string {
  return applyEdits(text, formatEdits(text) ?? []);
}

describe('formatting', () => {
  it.each<[string, string, string]>([
    ['columns', 'a:\n    b: 1\n    c:\n          d: 2\n', 'a:\n  b: 1\n  c:\n    d: 2\n'],
    [
      'items below their field',
      'stages:\n- name: now\n  power: 1\n-   name: later\n    power: 2\n',
      'stages:\n  - name: now\n    power: 1\n  - name: later\n    power: 2\n',
    ],
    ['items in items', 'a:\n-   - 1\n    - 2\n', 'a:\n  - - 1\n    - 2\n'],
    ['spaces within a line', 'a:   {b:   1,c: [ 2,3 ] , d: { } }\n', 'a: { b: 1, c: [2, 3], d: {} }\n'],
    ['braces over lines', 'a: {\n      b: 1,\n c: [\n 2 ]\n  }\n', 'a: {\n  b: 1,\n  c: [\n    2]\n}\n'],
    ['empty lines', '\n\n\na: 1\n\n\n\nb: 2\n\n\n', 'a: 1\n\nb: 2\n'],
    ['the end', 'a: 1', 'a: 1\n'],
    ['line ends', 'a:  1  \r\nb: 2\t\r\n', 'a: 1\r\nb: 2\r\n'],
    [
      'comments where they belong',
      '# top\na:\n    # of b\n    b: 1\n    # after b\n# of c\nc: 2   # said\n',
      '# top\na:\n  # of b\n  b: 1\n  # after b\n# of c\nc: 2   # said\n',
    ],
    [
      'texts over lines',
      'a:\n    b: |\n        one\n          two\n\n    c: "x\n      y"\n    d: plain\n      more\n',
      'a:\n  b: |\n      one\n        two\n\n  c: "x\n    y"\n  d: plain\n    more\n',
    ],
    ['names and what stands for them', 'a: &x   {b: 1}\nc:   *x\n', 'a: &x { b: 1 }\nc: *x\n'],
    ['an empty text', '', ''],
    ['comments alone', '\n\n# a\n\n\n# b', '# a\n\n# b\n'],
  ])('puts %s in order', (_, before, after) => {
    expect(formatted(before)).toBe(after);
    expect(formatted(after)).toBe(after);
  });

  it.each([
    ['a broken text', 'a: {b:   1\n'],
    ['several documents', 'a:   1\n---\nb:   2\n'],
    ['keys behind question marks', '? a\n:   1\n'],
    ['columns made of tabs', 'a:\n\tb: 1\n'],
  ])('leaves %s alone', (_, text) => {
    expect(formatEdits(text)).toBeUndefined();
  });

  it.each(readdirSync('samples').filter((name) => name.endsWith('.build.yaml')))(
    'leaves %s as it is, and brings it back',
    (name) => {
      const text = readFileSync(`samples/${name}`, 'utf8');
      const tidy = formatted(text);
      expect(formatted(tidy)).toBe(tidy);
      const wide = text
        .replaceAll(/^( +)/gm, '$1$1')
        .replaceAll(/: (?=\S)/g, ':   ')
        .replaceAll(', ', ' ,  ');
      if (formatEdits(wide) && JSON.stringify(parseDocument(wide)) === JSON.stringify(parseDocument(text)))
        expect(formatted(wide)).toBe(tidy);
    },
  );

  /** A text with white space put in at random between its lines, at their ends and around what stands in them. */
  const untidy = fc
    .tuple(randomSheet, fc.boolean(), fc.integer({ min: 1, max: 6 }), fc.infiniteStream(fc.nat(9)), fc.boolean())
    .map(([json, isFlow, indent, stream, isIndented]) => {
      const random = () => stream.next().value as number;
      const block = isFlow ? json : stringify(JSON.parse(json), { indent, indentSeq: isIndented, lineWidth: 30 });
      return block
        .split('\n')
        .map((line) => {
          const end = random() < 3 ? ' '.repeat(random()) : random() === 0 ? '  # said: {so}' : '';
          return random() === 0 ? `${line}${end}\n\n\n${' '.repeat(random())}# alone` : line + end;
        })
        .join('\n');
    });

  it('changes no value and no comment of any sheet, and nothing the second time', () => {
    let changed = 0;
    fc.assert(
      fc.property(untidy, (text) => {
        const edits = formatEdits(text);
        if (!edits) return;
        const after = applyEdits(text, edits);
        if (after !== text) changed++;
        expect(edits.every(({ start, end, text: white }) => `${text.slice(start, end)}${white}`.trim() === '')).toBe(
          true,
        );
        expect(parseDocument(after).toJS()).toEqual(parseDocument(text).toJS());
        expect(commentsOf(after)).toEqual(commentsOf(text));
        expect(formatEdits(after)).toEqual([]);
      }),
      { numRuns: 40 },
    );
    expect(changed).toBeGreaterThan(20);
  });
});
