import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findRoot } from '../../../server/src/engineering/roots.ts';
import { between } from './fuel-systems.ts';

describe('the root finder', () => {
  it('finds the root of any rising curve between two places', () => {
    fc.assert(
      fc.property(between(-50, 50), between(0.1, 20), fc.constantFrom(1, 3, 5), (root, scale, power) => {
        const found = findRoot((x) => scale * (x - root) ** power + (x - root), -60, 60, 1e-10);
        expect(Math.abs(found - root)).toBeLessThan(1e-9);
      }),
    );
  });

  it('finds a jump as well', () => {
    fc.assert(
      fc.property(between(-50, 50), (jump) => {
        const found = findRoot((x) => (x < jump ? -1 : 3), -60, 60, 1e-10);
        expect(Math.abs(found - jump)).toBeLessThan(1e-9);
      }),
    );
  });

  it('needs few steps on a smooth curve', () => {
    let calls = 0;
    findRoot(
      (x) => {
        calls += 1;
        return Math.exp(x) - 5;
      },
      -10,
      10,
    );
    expect(calls).toBeLessThan(20);
  });

  it('gives an end back that is the root', () => {
    expect(findRoot((x) => x, 0, 5)).toBe(0);
    expect(findRoot((x) => x - 5, 0, 5)).toBe(5);
  });

  it('refuses places without a change of sign and values that are no numbers', () => {
    expect(() => findRoot((x) => x * x + 1, -1, 1)).toThrow('no change of sign');
    expect(() => findRoot(() => Number.NaN, -1, 1)).toThrow('no value at -1');
    expect(() => findRoot((x) => (x === -1 || x === 1 ? x : Number.NaN), -1, 1)).toThrow(RangeError);
    expect(() => findRoot((x) => x, Number.NaN, 1)).toThrow(RangeError);
    expect(() => findRoot((x) => x, -1, Number.POSITIVE_INFINITY)).toThrow(RangeError);
  });
});
