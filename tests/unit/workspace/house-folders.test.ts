import { describe, expect, it } from 'vitest';
import { housesAbove, nearOverFar } from '../../../server/src/workspace/house-folders.ts';

/** The folders that are looked at, far ones first. */
const folders = (uri: string, ...roots: string[]) =>
  housesAbove(uri, roots).map(([first]) => first?.replace('/build-sheet.config.yaml', ''));

describe('house rules are looked for', () => {
  it.each([
    [
      'in every folder from the root down',
      'file:///shop/a/b/x.build.yaml',
      ['file:///shop'],
      ['shop', 'shop/a', 'shop/a/b'],
    ],
    ['from a root that ends with a slash', 'file:///shop/a/x.build.yaml', ['file:///shop/'], ['shop', 'shop/a']],
    [
      'from the outermost of nested roots',
      'file:///shop/a/b/x.build.yaml',
      ['file:///shop/a', 'file:///shop', 'file:///shop/a/b'],
      ['shop', 'shop/a', 'shop/a/b'],
    ],
    ['in its own folder outside every root', 'file:///other/a/x.build.yaml', ['file:///shop'], ['other/a']],
    ['not in a root whose name only begins alike', 'file:///shop-2/x.build.yaml', ['file:///shop'], ['shop-2']],
    [
      'where the file is, for the other side of a difference',
      'git:/shop/a/x.build.yaml?%7B%22path%22%3A%22%2Fshop%2Fa%2Fx.build.yaml%22%2C%22ref%22%3A%22~%22%7D',
      ['file:///shop'],
      ['shop', 'shop/a'],
    ],
    [
      'where the file is, for the other side of a difference on a drive with a letter',
      'git:/c%3A/shop/a/x.build.yaml?%7B%22path%22%3A%22c%3A%5C%5Cshop%5C%5Ca%5C%5Cx.build.yaml%22%2C%22ref%22%3A%22HEAD%22%7D',
      ['file:///c%3A/shop'],
      ['c%3A/shop', 'c%3A/shop/a'],
    ],
    [
      'where it will be, for a text not saved yet under its name',
      'untitled:/shop/a/x.build.yaml',
      ['file:///shop'],
      ['shop', 'shop/a'],
    ],
    ['in the only root, for a text without a name', 'untitled:Untitled-1', ['file:///shop'], ['shop']],
    [
      'nowhere, for a text without a name among several roots',
      'untitled:Untitled-1',
      ['file:///shop', 'file:///barn'],
      [],
    ],
  ])('%s', (_, uri, roots, expected) => {
    expect(folders(uri, ...roots)).toEqual(expected.map((folder) => `file:///${folder}`));
  });

  it('under either name, the first one first', () => {
    expect(housesAbove('file:///shop/x.build.yaml', ['file:///shop'])).toEqual([
      ['file:///shop/build-sheet.config.yaml', 'file:///shop/build-sheet.config.yml'],
    ]);
  });
});

describe('house rules of several folders', () => {
  it('are one: the near over the far, limit by limit and rule by rule', () => {
    const far = {
      units: 'si' as const,
      rules: { 'a/b': { severity: 'hint' as const }, 'a/c': { severity: 'error' as const } },
      limits: { surplus: 2, 'knock-index': 0.9 },
    };
    const near = { rules: { 'a/b': { severity: 'warning' as const } }, limits: { surplus: 3 } };
    expect(nearOverFar([far, {}, near])).toEqual({
      units: 'si',
      rules: { 'a/b': { severity: 'warning' }, 'a/c': { severity: 'error' } },
      limits: { surplus: 3, 'knock-index': 0.9 },
    });
  });
});
