import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDeadTime } from '../../../server/src/engineering/dead-time.ts';
import * as part from '../../../server/src/engineering/part-load.ts';
import { rising, size } from './arbitrary.ts';
import { expectRefusals } from './refusal.ts';

const usual = { full: 0.85, manifoldPressure: 50e3, exhaustPressure: 101e3, compressionRatio: 9 };

describe('part load', () => {
  it('fills better with more manifold pressure, less exhaust pressure and more compression', () => {
    fc.assert(
      fc.property(
        rising(20e3, 100e3),
        rising(101e3, 150e3),
        rising(7, 13),
        ([low, high], [free, choked], [mild, tight]) => {
          const at = (more: Partial<typeof usual>) => part.partLoadEfficiency({ ...usual, ...more });
          expect(at({ manifoldPressure: high })).toBeGreaterThan(at({ manifoldPressure: low }));
          expect(at({ exhaustPressure: choked })).toBeLessThan(at({ exhaustPressure: free }));
          expect(at({ compressionRatio: tight })).toBeGreaterThan(at({ compressionRatio: mild }));
          expect(at({ full: 2 * usual.full })).toBeCloseTo(2 * at({}), 12);
        },
      ),
    );
  });

  it('goes through the idle that is known and leaves full load alone', () => {
    fc.assert(
      fc.property(size(0.2, 0.8), size(0.2, 0.8), (known, computed) => {
        expect(part.throughIdle(computed, 0, { known, computed })).toBeCloseTo(known, 12);
        expect(part.throughIdle(0.9, 1, { known, computed })).toBeCloseTo(0.9, 12);
      }),
    );
    expect([30e3, 40e3, 70e3, 100e3, 150e3].map((at) => part.loadShare(at, 40e3, 100e3))).toEqual([0, 0, 0.5, 1, 1]);
  });

  it('follows the torque at full load and gets richer with load', () => {
    expect(part.fullLoadEfficiency(0.85, 400, 340)).toBeCloseTo(1, 12);
    fc.assert(
      fc.property(rising(20e3, 250e3), ([low, high]) => {
        const at = (pressure: number) => part.startingLambda(pressure, 100e3, 0.85);
        expect(at(high)).toBeLessThanOrEqual(at(low));
        expect(at(high)).toBeGreaterThanOrEqual(0.85 - 1e-12);
        expect(at(low)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(part.partLoadEfficiency, usual);
    expectRefusals(part.fullLoadEfficiency, 0.85, 400, 340);
    expectRefusals(part.loadShare, 50e3, 40e3, 100e3);
    expectRefusals(part.throughIdle, 0.7, 0.5, { known: 0.5, computed: 0.6 });
    expectRefusals(part.startingLambda, 80e3, 100e3, 0.85);
  });
});

describe('the dead time read', () => {
  const table = [
    { voltage: 10, deadTime: 1.6e-3 },
    { voltage: 14, deadTime: 0.85e-3 },
  ];

  it('never falls when the voltage does, and stays in reason', () => {
    fc.assert(
      fc.property(rising(1, 18), ([low, high]) => {
        for (const of of [table, table.slice(1)]) {
          expect(readDeadTime(low, of).deadTime).toBeGreaterThanOrEqual(readDeadTime(high, of).deadTime - 1e-12);
          expect(readDeadTime(low, of).deadTime).toBeLessThan(3e-3);
        }
      }),
    );
  });

  it('says how far it can be trusted', () => {
    const trust = (of: typeof table) => [6, 8.5, 9, 12, 14, 15].map((voltage) => readDeadTime(voltage, of).trust);
    expect(trust(table)).toEqual(['unknown', 'unknown', 'estimated', 'measured', 'measured', 'estimated']);
    expect(trust(table.slice(1))).toEqual(['unknown', 'estimated', 'estimated', 'estimated', 'measured', 'estimated']);
  });

  it('refuses nonsense with a sentence', () => {
    expectRefusals(readDeadTime, 12, table);
    expect(() => readDeadTime(12, [])).toThrow('empty');
  });
});
