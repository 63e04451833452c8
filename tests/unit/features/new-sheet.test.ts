import { describe, expect, it } from 'vitest';
import { checkText } from '../../../server/src/checking/checked.ts';
import { newSheets } from '../../../server/src/features/new-sheet.ts';
import { askedOf } from '../../../server/src/features/questions.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';

describe('a new sheet', () => {
  it.each(newSheets())('of the kind $kind can be read, invents nothing and asks for the rest', ({ text }) => {
    const checked = checkText(text, noHouse);
    expect(checked.sheet.problems).toEqual([]);
    expect(text).not.toMatch(/ $/m);
    const written = text.match(/: [^\s].*/g)?.map((line) => line.slice(2)) ?? [];
    expect(written.filter((value) => /\d [a-zA-Z]/.test(value))).toEqual([]);
    expect(checked.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(checked.findings.map(({ rule }) => rule)).toContain('paper/incomplete');
    const asked = askedOf(checked);
    expect(asked[0]?.isEmpty).toBe(true);
    expect(asked.length).toBeGreaterThan(25);
  });

  it('has every kind of build a shop begins', () => {
    expect(newSheets().map(({ kind }) => kind)).toEqual([
      'street',
      'blower',
      'turbo-on-alcohol',
      'nitrous',
      'off-road',
    ]);
  });
});
