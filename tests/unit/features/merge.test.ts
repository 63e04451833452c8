import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mergedText } from '../../../server/src/features/merge.ts';
import { threeWays } from '../../../server/src/sheet/three-ways.ts';

const BASE = `format: 1
title: Wagon # as the owner calls it
engine: { cylinders: 8, displacement: 4.9 L, idle: 750 rpm }
stages:
  - { name: now, power: 245 hp, induction: natural }
  - { name: cam, power: 290 hp, induction: natural }
notes:
  - { date: 2031-04-12, note: began }
`;

/** What comes of two changes of the base, each a replacement. */
function merge(ours: [string, string][], theirs: [string, string][], byLines?: string) {
  const changed = (pairs: [string, string][]) =>
    pairs.reduce((text, [from, to]) => {
      expect(text).toContain(from);
      return text.replace(from, to);
    }, BASE);
  return mergedText(BASE, changed(ours), changed(theirs), byLines);
}

describe('a merge of two changes of a sheet', () => {
  it.each<[string, [string, string][], [string, string][], string[]]>([
    ['fields on one line', [['4.9 L', '5.0 L']], [['750 rpm', '800 rpm']], ['displacement: 5.0 L, idle: 800 rpm']],
    [
      'fields of one stage',
      [['245 hp', '250 hp']],
      [['name: now, ', 'name: now, cost: 10, ']],
      ['power: 250 hp', 'cost: 10'],
    ],
    [
      'a field taken out and one that is changed',
      [[', idle: 750 rpm', '']],
      [['4.9 L', '5.0 L']],
      ['{ cylinders: 8, displacement: 5.0 L }'],
    ],
    [
      'a field and a section',
      [['4.9 L', '5.0 L']],
      [['stages:', 'fuel: { grade: gasoline }\nstages:']],
      ['5.0 L', 'fuel: { grade: gasoline }'],
    ],
    [
      'notes of two days',
      [['note: began }', 'note: began }\n  - { date: 2031-05-01, note: ours }']],
      [['note: began }', 'note: began }\n  - { date: 2031-05-02, note: theirs }']],
      ['note: ours', 'note: theirs', 'note: began'],
    ],
    ['the same change', [['4.9 L', '5.0 L']], [['4.9 L', '5.0 L']], ['5.0 L']],
    [
      'comments on one side',
      [['engine:', '# measured\nengine:']],
      [['245 hp', '250 hp']],
      ['# measured', '250 hp', '# as the owner calls it'],
    ],
  ])('joins %s', (_, ours, theirs, says) => {
    const merged = merge(ours, theirs);
    expect(merged).toHaveProperty('text');
    for (const text of says) expect('text' in merged && merged.text).toContain(text);
  });

  it.each<[string, [string, string][], [string, string][], RegExp]>([
    ['one field in two ways', [['4.9 L', '5.0 L']], [['4.9 L', '5.1 L']], /^engine\.displacement$/],
    ['a field of a stage in two ways', [['245 hp', '250 hp']], [['245 hp', '260 hp']], /^power of stage "now"$/],
    [
      'a stage that the other takes out',
      [['  - { name: cam, power: 290 hp, induction: natural }\n', '']],
      [['290 hp', '300 hp']],
      /stage "cam"/,
    ],
    [
      'the stages, each adding one',
      [['stages:', 'stages:\n  - { name: a, power: 200 hp }']],
      [['stages:', 'stages:\n  - { name: b, power: 200 hp }']],
      /^stages$/,
    ],
    [
      'comments',
      [['4.9 L, idle: 750 rpm }', '5.0 L, idle: 750 rpm } # ours']],
      [['idle: 750 rpm }', 'idle: 800 rpm } # theirs']],
      /comments/,
    ],
    ['a text that is broken', [['engine: {', 'engine: {{{']], [['245 hp', '250 hp']], /cannot be read/],
  ])('leaves a conflict where both change %s', (_, ours, theirs, names) => {
    const merged = merge(ours, theirs);
    expect('conflicts' in merged && merged.conflicts.join(', ')).toMatch(names);
  });

  it('takes what git merges by lines where it says the same, and not where a key would stand twice', () => {
    const byLines = BASE.replace('4.9 L', '5.0 L').replace('245 hp', '250 hp');
    expect(merge([['4.9 L', '5.0 L']], [['245 hp', '250 hp']], `${byLines}# by lines\n`)).toEqual({
      text: `${byLines}# by lines\n`,
    });
    const twice = merge(
      [['stages:', 'fuel: { grade: gasoline }\nstages:']],
      [['notes:', 'fuel: { grade: gasoline-e10 }\nnotes:']],
      BASE,
    );
    expect(twice).toEqual({ conflicts: ['fuel.grade'] });
  });
});

describe('merging three trees', () => {
  const tree = fc.dictionary(
    fc.constantFrom('a', 'b', 'c'),
    fc.oneof(fc.nat(3), fc.dictionary(fc.constantFrom('d', 'e'), fc.nat(3), { minKeys: 1 })),
    { minKeys: 1 },
  );
  it('is the same from both sides, and changes nothing that only one side has', () => {
    fc.assert(
      fc.property(tree, tree, tree, (base, ours, theirs) => {
        const [one, other] = [threeWays(base, ours, theirs), threeWays(base, theirs, ours)];
        expect(one.conflicts.length === 0).toBe(other.conflicts.length === 0);
        if (one.conflicts.length === 0) expect(one.values).toEqual(other.values);
        expect(threeWays(base, ours, base)).toEqual({ values: ours, conflicts: [] });
        expect(threeWays(base, base, theirs)).toEqual({ values: theirs, conflicts: [] });
      }),
    );
  });
});
