import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { echo, MOST_ECHOED, quoted } from '../../../server/src/text/echo.ts';

describe('a text of the user in a message', () => {
  it.each([
    ['350 hp', '350 hp'],
    ['  350\t hp\r\n', '350 hp'],
    ['one\ntwo\u0000three\u2028four', 'one two three four'],
    ['', ''],
    ['a'.repeat(60), 'a'.repeat(60)],
    ['a'.repeat(61), `${'a'.repeat(59)}…`],
    ['😀'.repeat(61), `${'😀'.repeat(59)}…`],
    [`${' '.repeat(500)}x`, '…'],
  ])('%j reads %j', (text, shown) => {
    expect(echo(text)).toBe(shown);
  });

  it('stands between quotes that it cannot close', () => {
    expect(quoted('350 hp')).toBe('"350 hp"');
    expect(quoted('a "b"')).toBe(`'a "b"'`);
    expect(quoted(`it's a "b"`)).toBe(`"it's a 'b'"`);
  });

  it('is short and on one line, whatever it is', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 400 }), (text) => {
        const shown = echo(text);
        expect([...shown].length).toBeLessThanOrEqual(MOST_ECHOED);
        expect(shown).not.toMatch(/[\p{C}\u2028\u2029]/u);
      }),
    );
  });

  it('of any length costs no more than its beginning', () => {
    expect(echo('x '.repeat(5_000_000))).toHaveLength(MOST_ECHOED);
  });
});
