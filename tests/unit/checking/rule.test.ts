import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { above, below } from '../../../server/src/checking/rule.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { samples } from '../analysis/sheets.ts';

describe('a figure beside a limit', () => {
  it.each([
    ['over it', { value: 5, low: 4, high: 6 }, { excess: 2, onlyAtBadEnd: false }],
    ['over it only at its high end', { value: 2, low: 1, high: 4 }, { excess: 1, onlyAtBadEnd: true }],
    ['at it', { value: 3 }, undefined],
    ['at it but for rounding', { value: 3 * (1 + 1e-12) }, undefined],
    ['under it', { value: 1, low: 0, high: 2 }, undefined],
    ['that is not known', undefined, undefined],
  ])('is above when it is %s', (_, figure, miss) => {
    expect(above(figure, 3)).toEqual(miss);
  });

  it.each([
    ['under it', { value: 1, low: 0, high: 2 }, { excess: 2, onlyAtBadEnd: false }],
    ['under it only at its low end', { value: 4, low: 2, high: 5 }, { excess: 1, onlyAtBadEnd: true }],
    ['at it', { value: 3 }, undefined],
    ['at it but for rounding', { value: 3 * (1 - 1e-12) }, undefined],
    ['over it', { value: 5, low: 4, high: 6 }, undefined],
    ['that is not known', undefined, undefined],
  ])('is below when it is %s', (_, figure, miss) => {
    expect(below(figure, 3)).toEqual(miss);
  });

  it('takes a limit under zero as one', () => {
    expect(above({ value: -2 }, -3)).toEqual({ excess: 1, onlyAtBadEnd: false });
    expect(below({ value: -4 }, -3)).toEqual({ excess: 1, onlyAtBadEnd: false });
  });
});

describe('a rule that needs a limit', () => {
  it('says nothing, and does not fail, while the limits may stand in a part that cannot be read', () => {
    const [, text = ''] = samples.find(([name]) => name === 'overreach-roadster.build.yaml') ?? [];
    expect(checkText(`${text}\n>\n`, noHouse).faults).toEqual([]);
  });
});
