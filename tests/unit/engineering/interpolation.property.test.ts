import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { curveAt, linearAt, pchip } from '../../../server/src/engineering/interpolation.ts';
import { between, noNumbers } from './fuel-systems.ts';

const curve = fc
  .array(fc.record({ step: between(0.01, 5), y: between(-100, 100) }), { minLength: 2, maxLength: 9 })
  .map((points) => {
    let x = 0;
    return { x: points.map((point) => (x += point.step)), y: points.map((point) => point.y) };
  });
const place = between(0, 1);

function inside({ x }: { x: number[] }, share: number): number {
  const low = x[0] as number;
  const high = x[x.length - 1] as number;
  return Math.min(high, low + share * (high - low));
}

describe('the shape-preserving curve', () => {
  it('goes through its points', () => {
    fc.assert(
      fc.property(curve, ({ x, y }) => {
        const through = pchip(x, y);
        for (const [i, at] of x.entries()) expect(curveAt(through, at)).toBeCloseTo(y[i] as number, 9);
      }),
    );
  });

  it('never leaves the range of the two points around it', () => {
    fc.assert(
      fc.property(curve, place, ({ x, y }, share) => {
        const at = inside({ x }, share);
        const next = Math.max(
          1,
          x.findIndex((value) => value >= at),
        );
        const around = [y[next - 1] as number, y[next] as number];
        const value = curveAt(pchip(x, y), at);
        expect(value).toBeGreaterThanOrEqual(Math.min(...around) - 1e-9);
        expect(value).toBeLessThanOrEqual(Math.max(...around) + 1e-9);
      }),
    );
  });

  it('falls wherever its points fall', () => {
    fc.assert(
      fc.property(curve, place, place, ({ x, y }, one, other) => {
        const falling = pchip(
          x,
          [...y].sort((a, b) => b - a),
        );
        const [left, right] = [inside({ x }, Math.min(one, other)), inside({ x }, Math.max(one, other))];
        expect(curveAt(falling, left)).toBeGreaterThanOrEqual(curveAt(falling, right) - 1e-9);
      }),
    );
  });

  it('is a straight line through two points', () => {
    expect(curveAt(pchip([1, 3], [10, 20]), 1.5)).toBe(12.5);
  });

  it('takes no reading outside its points', () => {
    const through = pchip([1, 2, 3], [1, 4, 9]);
    for (const at of [0.999, 3.001, ...noNumbers]) expect(() => curveAt(through, at)).toThrow(RangeError);
    expect(() => linearAt([1, 2], [1, 4], 2.5)).toThrow('2.5 is outside the curve, which runs from 1 to 2.');
  });

  it('refuses tables that are empty, unsorted, uneven or hold no numbers', () => {
    expect(() => pchip([], [])).toThrow('at least two points');
    expect(() => linearAt([], [], 1)).toThrow('at least one point');
    expect(() => pchip([1], [1])).toThrow(RangeError);
    expect(() => pchip([1, 2, 2], [1, 2, 3])).toThrow('rising order');
    expect(() => pchip([2, 1], [1, 2])).toThrow('rising order');
    expect(() => pchip([1, 2, 3], [1, 2])).toThrow(RangeError);
    for (const value of noNumbers) {
      expect(() => pchip([1, value], [1, 2])).toThrow(RangeError);
      expect(() => pchip([1, 2], [1, value])).toThrow(RangeError);
    }
  });
});

describe('the straight-line table', () => {
  it('gives its points back and the middle between two of them', () => {
    fc.assert(
      fc.property(curve, ({ x, y }) => {
        for (const [i, at] of x.entries()) expect(linearAt(x, y, at)).toBeCloseTo(y[i] as number, 9);
        const [x0, x1, y0, y1] = [x[0] as number, x[1] as number, y[0] as number, y[1] as number];
        expect(linearAt(x, y, (x0 + x1) / 2)).toBeCloseTo((y0 + y1) / 2, 6);
      }),
    );
  });

  it('reads a single point at its place only', () => {
    expect(linearAt([5], [7], 5)).toBe(7);
    expect(() => linearAt([5], [7], 6)).toThrow(RangeError);
  });
});
