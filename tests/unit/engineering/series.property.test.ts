import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as series from '../../../server/src/engineering/series.ts';
import { size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const all = [
  series.injectorFlows,
  series.pumpFlows,
  series.hoseBores.inch,
  series.hoseBores.metric,
  series.wireSizes.gauge,
  series.wireSizes.metric,
  series.fuseRatings,
  series.regulatorSettings,
];
const sizes = fc.constantFrom(...all);

describe('series of sizes', () => {
  it('rise', () => {
    for (const list of all) expect([...list]).toEqual([...new Set(list)].toSorted((one, other) => one - other));
  });

  it('find for any value the size that covers it', () => {
    fc.assert(
      fc.property(sizes, size(0.5, 1.5), fc.nat(), (list, factor, pick) => {
        const value = (list[pick % list.length] as number) * factor;
        const up = series.sizeAtLeast(list, value);
        if (up !== undefined) expect(up).toBeGreaterThanOrEqual(value * 0.999999);
      }),
    );
  });

  it('step from one size to the next and back', () => {
    for (const list of all) {
      list.forEach((one, i) => {
        expect(series.sizeAbove(list, one)).toBe(list[i + 1]);
        expect(series.sizeBelow(list, one)).toBe(list[i - 1]);
        expect(series.sizeAtLeast(list, one * (1 + 1e-9))).toBe(one);
      });
    }
  });

  it('refuse nonsense with a sentence', () => {
    for (const find of [series.sizeAtLeast, series.sizeAbove, series.sizeBelow]) {
      expectRefusals((value: number) => find(series.injectorFlows, value), 0.01);
    }
    expectRefusals((unit: number, from: number) => series.renard20(unit, from, 100), 1, 10);
  });
});
