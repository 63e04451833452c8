import { describe, expect, it } from 'vitest';
import { cutsOf } from '../../../server/src/sheet/cuts.ts';

/** Each stretch as what it is and its lines. */
function cut(text: string): string[] | undefined {
  return cutsOf(text)?.map(({ kind, name, start, end }) => `${kind} ${name}: ${text.slice(start, end)}`);
}

describe('the stretches of a text', () => {
  it('are the fields at the margin with what belongs to them, without the comments above the first', () => {
    expect(cut('# mine\n\nformat: 1\nengine:\n  cylinders: 8\n# end of the engine\n\nfuel: {}')).toEqual([
      'field format: format: 1\n',
      'field engine: engine:\n  cylinders: 8\n# end of the engine\n\n',
      'field fuel: fuel: {}',
    ]);
  });

  it.each([
    ['notes:\n  - a\n  # of b\n  - b\n    more\nfuel: {}\n'],
    ['notes: # all of them\n- a\n# of b\n- b\n  more\nfuel: {}\n'],
    ['notes:\r\n\r\n   -  a\r\n   # of b\r\n   -\r\n     b\r\n     more\r\nfuel: {}\r\n'],
  ])('are the head and the items of a list at the margin: %j', (text) => {
    const stretches = cut(text) ?? [];
    expect(stretches.map((stretch) => stretch.slice(0, stretch.indexOf(':')))).toEqual([
      'head notes',
      'item notes',
      'item notes',
      'field fuel',
    ]);
    expect(stretches.map((stretch) => stretch.slice(stretch.indexOf(': ') + 2)).join('')).toBe(text);
  });

  it('leave a list within a field in one piece', () => {
    expect(
      cut('fuel-system:\n  pump:\n    flow-at:\n      - [40 psi, 330 L/h]\n      - [60 psi, 290 L/h]\n'),
    ).toHaveLength(1);
    expect(cut('notes: [a,\n  b]\n')).toHaveLength(1);
  });

  it.each([
    ['a tab', 'notes:\n  - a\t# b\n'],
    ['a byte order mark', '\ufeffformat: 1\n'],
    ['a line end of old', 'format: 1\rfuel: {}\n'],
    ['something before the first field', '  format: 1\n'],
    ['a list of its own', '- a\n- b\n'],
    ['an item under a value', 'fuel: x\n- a\n'],
    ['a line of an item further out than its dash', 'notes:\n  - a\n b\n'],
    ['a line of an item further out than its words', 'notes:\n  -  a\n   b\n'],
  ])('are not told where there is %s', (_, text) => {
    expect(cutsOf(text)).toBeUndefined();
  });
});
