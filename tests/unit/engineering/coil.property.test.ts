import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as coil from '../../../server/src/engineering/coil.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

describe('coils', () => {
  it('get hotter with more voltage and cooler with a ballast, while the ballast gets hot', () => {
    fc.assert(
      fc.property(rising(8, 16), size(0.3, 4), size(0.1, 3), ([low, high], resistance, ballast) => {
        expect(coil.steadyHeat(high, resistance).coil).toBeGreaterThan(coil.steadyHeat(low, resistance).coil);
        const behind = coil.steadyHeat(high, resistance, ballast);
        expect(behind.coil).toBeLessThan(coil.steadyHeat(high, resistance).coil);
        expect(behind.ballast).toBeGreaterThan(0);
        expect(coil.steadyHeat(2 * low, resistance).coil).toBeCloseTo(4 * coil.steadyHeat(low, resistance).coil, 6);
      }),
    );
  });

  it('share the cylinders evenly or not at all', () => {
    expect([sparks(8, 1), sparks(8, 4), sparks(8, 8), sparks(6, 3)]).toEqual([8, 2, 1, 2]);
    expect(() => sparks(8, 3)).toThrow('8 cylinders do not share 3 coils evenly.');
    expect(() => sparks(4, 8)).toThrow('evenly');
    expect(() => sparks(4.5, 1)).toThrow('evenly');
  });

  it('charge from what the driver leaves, never from less than nothing', () => {
    expect(coil.coilSupply(14, 1)).toBe(13);
    expect(coil.coilSupply(1, 1.5)).toBe(0);
  });

  it('refuse nonsense with a sentence', () => {
    expectRefusals(coil.coilSupply, 14, 1.25);
    expectRefusals(coil.sparksPerCoil, 8, 4);
    expectRefusals(coil.steadyHeat, 14, 1.5, 1);
  });
});

function sparks(cylinders: number, coils: number): number {
  return coil.sparksPerCoil(cylinders, coils);
}
