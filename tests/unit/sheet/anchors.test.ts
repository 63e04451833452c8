import { describe, expect, it } from 'vitest';
import { anchorsIn } from '../../../server/src/sheet/anchors.ts';

/** Marks as they stand in the text, each with the number of the giving it belongs to. */
const marks = (text: string) =>
  anchorsIn(text).map(
    ({ name, range, role, giving }) =>
      `${text[range.start - 1]}${text.slice(range.start, range.end)} ${role} ${giving}${name === text.slice(range.start, range.end) ? '' : ' elsewhere'}`,
  );

describe('anchors and aliases', () => {
  it('stand where they are written, an alias with the last anchor of its name', () => {
    expect(marks('a: &x 1\nb: *x\nc: &x 2\nd: [*x, { <<: *x }]\n')).toEqual([
      '&x given 0',
      '*x used 0',
      '&x given 2',
      '*x used 2',
      '*x used 2',
    ]);
  });

  it.each([
    ['after a byte order mark', '\ufeffa: &x 1\nb: *x\n'],
    ['with lines that end with CRLF', 'a: &x 1\r\nb: *x\r\n'],
    ['with lines that end with CR', 'a: &x 1\rb: *x\r'],
    ['beside comments and astral characters', '# &no *no 😀\na: &x "😀" # &no\nb: *x\n'],
    ['in a document with a marker', '---\na: &x 1\nb: *x\n...\n'],
    ['in a text that is broken elsewhere', 'a: &x 1\nb: *x\nc: {\n'],
  ])('are found %s', (_, text) => {
    expect(marks(text)).toEqual(['&x given 0', '*x used 0']);
  });

  it('are not what only looks like one', () => {
    expect(anchorsIn('a: "&x"\nb: R&D\nc: |\n  &x\n  *x\nd: 2 *x\ne: \'*x\'\n')).toEqual([]);
  });

  it('without an anchor belong to none', () => {
    expect(anchorsIn('a: *x\n')[0]?.giving).toBeUndefined();
  });
});
