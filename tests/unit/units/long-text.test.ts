import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { isQuantity } from '../../../server/src/units/quantity.ts';
import { canonical } from '../../../server/src/units/spelling.ts';
import { type Dimension, dimensions } from '../../../server/src/units/units.ts';

/** Shapes that a pattern with two ways to match the same characters would try in polynomially many ways. */
const shapes: ((length: number) => string)[] = [
  (length) => `${'1'.repeat(length)} a${' '.repeat(length)}...+`,
  (length) => '1'.repeat(length),
  (length) => '1_'.repeat(length),
  (length) => '1,'.repeat(length),
  (length) => '1.'.repeat(length),
  (length) => '1 '.repeat(length),
  (length) => '1/'.repeat(length),
  (length) => '1-'.repeat(length),
  (length) => 'O1'.repeat(length),
  (length) => '1,234'.repeat(length),
  (length) => '1 +/- '.repeat(length),
  (length) => '.'.repeat(length),
  (length) => '+'.repeat(length),
  (length) => ' '.repeat(length),
  (length) => `1${' '.repeat(length)}`,
  (length) => `1${' '.repeat(length)}+`,
  (length) => `1 ${'psi '.repeat(length)}`,
  (length) => `1 ${'('.repeat(length)}g`,
  (length) => `1 ${'cubic '.repeat(length)}`,
  (length) => `1 ${'a.'.repeat(length)}`,
  (length) => `1..${'2'.repeat(length)}`,
  (length) => `1${'½'.repeat(length)}`,
  (length) => `${'0'.repeat(length)} AWG`,
  (length) => `1 ${'galons'.repeat(length)}`,
];

describe('a long text', () => {
  it.each(shapes.map((shape) => [shape(3), shape] as const))('like %j is no quantity, at any length', (_, shape) => {
    for (const length of [49, 98, 1000, 16_000, 1_000_000]) {
      const text = shape(length);
      for (const dimension of ['length', 'wire-size', 'absolute-pressure', 'ratio-number'] as Dimension[]) {
        const error = parseQuantity(text, dimension);
        if (isQuantity(error)) expect(text.length).toBeLessThanOrEqual(100);
        else expect(error.message.length).toBeLessThan(300);
      }
    }
  });

  it('is no unit', () => {
    for (const dimension of Object.keys(dimensions) as Dimension[])
      expect(isQuantity(parseQuantity(`1 ${'m'.repeat(16_000)}`, dimension))).toBe(false);
    expect(canonical('per '.repeat(16_000))).toHaveLength(64_000);
  });
});
