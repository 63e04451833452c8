import { describe, expect, it } from 'vitest';
import { matched } from '../../../server/src/sheet/chunk-match.ts';
import type { Cut } from '../../../server/src/sheet/cuts.ts';

/** A field a letter, each on a line of its own. */
function lines(letters: string): { text: string; cuts: Cut[] } {
  const cuts = [...letters].map(
    (name, index): Cut => ({ kind: 'field', name, start: 5 * index, end: 5 * index + 5, stretch: {} }),
  );
  return { text: [...letters].map((name) => `${name}: 1\n`).join(''), cuts };
}

describe('stretches of a text', () => {
  it.each([
    ['all stand as they did', 'abc', 'abc', [0, 1, 2], [], []],
    ['one is changed', 'abc', 'axc', [0, undefined, 2], [1], [1]],
    ['one is gone', 'abcd', 'abd', [0, 1, 3], [], [2]],
    ['one is added', 'ab', 'axb', [0, undefined, 1], [1], []],
    ['two change places', 'abcd', 'acbd', [0, 2, 1, 3], [], []],
    ['one is written again', 'a', 'aa', [0, undefined], [1], []],
    ['one of two alike is gone', 'aab', 'ab', [0, 2], [], [1]],
    ['all are new', 'ab', 'xyz', [undefined, undefined, undefined], [0, 1, 2], [0, 1]],
    ['none are left', 'ab', '', [], [], [0, 1]],
  ])('%s', (_, before, after, sources, fresh, gone) => {
    const { text, cuts } = lines(after);
    expect(matched(text, cuts, { ...lines(before), entries: [] })).toEqual({ sources, fresh, gone });
  });
});
