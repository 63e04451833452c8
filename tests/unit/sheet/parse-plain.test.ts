import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseWhole } from '../../../server/src/sheet/parse.ts';
import { parsePlain } from '../../../server/src/sheet/parse-plain.ts';
import { root } from '../../../server/src/sheet/schema.ts';
import { longSheet } from '../../bench/long-sheet.mjs';
import { anEdit, edited } from '../../fuzz/edit.ts';
import { sources } from '../../fuzz/sources.ts';

/** Pieces in which plain text and all that YAML has meet. */
const pieces = [
  ...['\n', '\n\n', '\r\n', ' ', '  ', '- ', '-', ':', ': ', '? ', '#', ' #', ' # c\n', ',', ', ', '{', '}', '[', ']'],
  ...['"', "'", '""', "''", "'it''s'", '"a\\tb"', '|', '>', '&a ', '*a', '<<', '!t ', '%', '@', '`', '\t', '\r', '\\'],
  ...['a', 'a: ', 'a:\n', 'b: 1', 'x: y', '---', '...', '{}', '[]', '\u00e9', '\u00a0', '\u2028', '\ufeff', '='],
  ...['null', 'NULL', '~', 'true', 'TRUE', 'Yes', '0x1f', '0o7', '0o9', '1e3', '.5', '5.', '+5', '-0', '-5', '1_000'],
  ...['.inf', '-.inf', '.nan', '12345678901234567890', '350 hp', '5:30', 'a#b'],
];

const small = [
  'a: 1\nb: 2\n',
  'a:\n  b: 1\n  c: [1, 2]\nd:\n- x\n- y: 1\n  z: { q: 1, w: [a b, c] }\n',
  'a: { b: 1,\n  c: 2 }\n',
  'a:\n  - b: 1\n\n    c: 2\n  # d\n  - e\nf:\n',
  'a: "x y"\nb: \'z\'\n',
  'a:   # b\n  c: d # e\n',
  'a: [\n  b,\n  c\n  ]\n',
];

const aChange = fc.record({ at: fc.nat(), length: fc.nat(4), piece: fc.constantFrom('', ...pieces) });

function changed(text: string, { at, length, piece }: { at: number; length: number; piece: string }): string {
  const start = at % (text.length + 1);
  return text.slice(0, start) + piece + text.slice(start + length);
}

/** Whether a text is read plainly, which must then be as YAML has it. */
function isPlain(text: string): boolean {
  const plain = parsePlain(text, root);
  if (!plain) return false;
  const { root: whole, errors, isLocal } = parseWhole(text, root);
  const isSame = isLocal && errors.length === 0 && isDeepStrictEqual(plain, whole);
  if (!isSame) expect(plain, text).toStrictEqual({ whole, errors, isLocal });
  return true;
}

describe('a text that is read plainly', () => {
  it('is nearly every sheet, as YAML has it', () => {
    const texts = [...small, ...sources(), longSheet(120)];
    const left = texts.filter((text) => !isPlain(text));
    expect(left.filter((text) => !/[&*|>"]|: *'/.test(text))).toEqual([]);
    expect(left.length).toBeLessThan(texts.length / 50);
    for (const text of small)
      expect([text.replaceAll('\n', '\r\n'), text.trimEnd()].map(isPlain)).toEqual([true, true]);
  });

  it('is as YAML has it, whatever was changed in a small one', { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(fc.constantFrom(...small), fc.array(aChange, { minLength: 1, maxLength: 4 }), (text, changes) => {
        isPlain(changes.reduce(changed, text));
      }),
      { numRuns: 4000 },
    );
  });

  it('is as YAML has it, whatever was edited in a sheet', { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(fc.constantFrom(...sources()), fc.array(anEdit, { minLength: 1, maxLength: 4 }), (text, edits) => {
        isPlain(edits.reduce(edited, text));
      }),
      { numRuns: 200 },
    );
  });
});

describe('a text that is left to YAML', () => {
  it.each([
    ...['', '# c\n', 'a', '- a\n', '{ a: 1 }\n', '---\na: 1\n', 'a: 1\n...\n', '%YAML 1.2\n---\na: 1\n', ' a: 1\n'],
    ...[`a: ${'['.repeat(101)}${']'.repeat(101)}\n`, `a: ${'{ b: '.repeat(101)}1${' }'.repeat(101)}\n`],
    ...['a: &b 1\n', 'a: *b\n', 'a: !b c\n', '<<: { a: 1 }\n', 'a: |\n  b\n', 'a: >\n  b\n', '? a\n: b\n', '"a": 1\n'],
    ...['a: b\n  c\n', 'a: "b\n  c"\n', 'a: "\\t"\n', "a: 'b''c'\n", 'a:\tb\n', 'a: b: c\n', 'a: b\n c: d\n'],
    ...['a: 1\na: 2\n', 'a: { b: 1, b: 2 }\n', 'a: [b, ]\n', 'a: [b\n', 'a: { b }\n', 'a: { b: }\n', 'a: [b: c]\n'],
    ...[
      'a: [b, # c\n  d]\n',
      'a: [b,\nc]\n',
      'a: 1\n- b\n',
      'a:\n  - b\n c: 1\n',
      'a:\n  - - b\n',
      'a: "b"#c\n',
      '\ufeffa: 1\n',
    ],
  ])('%j', (text) => {
    expect(parsePlain(text, root)).toBeUndefined();
  });
});
