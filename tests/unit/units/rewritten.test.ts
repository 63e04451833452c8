import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { saysTheSame } from '../../../server/src/units/rewritten.ts';
import type { Dimension } from '../../../server/src/units/units.ts';

describe('two quantities', () => {
  // Mechanical horsepower 745.699872 W, pound 0.45359237 kg, inch 25.4 mm, psi 6894.757 Pa (NIST SP 811, 2008, appendix B.8).
  it.each<[Dimension, string, string, boolean]>([
    ['power', '350 hp', '261 kW', true],
    ['power', '350 hp', '260.995 kW', true],
    ['power', '350 hp', '262 kW', false],
    ['power', '350 hp', '260.9 kW', true],
    ['power', '350.0 hp', '260.9 kW', false],
    ['power', '350 hp', '350.0 hp', true],
    ['power', '350 hp', '351 hp', false],
    ['power', '350 +/- 10 hp', '261 kW', false],
    ['length', '3/8 in', '9.525 mm', true],
    ['length', '3/8 in', '9.5 mm', true],
    ['length', '3/8 in', '10 mm', true],
    ['length', '3/8 in', '9.4 mm', false],
    ['pressure', '58 psi', '4 bar', true],
    ['pressure', '58 psi', '4.1 bar', false],
  ])('of %s, %s and %s', (dimension, one, other, isSame) => {
    const [before, after] = [parseQuantity(one, dimension), parseQuantity(other, dimension)];
    expect(saysTheSame(before, after)).toBe(isSame);
    expect(saysTheSame([before], [after])).toBe(isSame);
    expect(saysTheSame({ a: before }, { b: after })).toBe(false);
  });
});
