import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { against, estimate } from '../../../server/src/units/digits.ts';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { isQuantity } from '../../../server/src/units/quantity.ts';
import type { Dimension } from '../../../server/src/units/units.ts';

function si(text: string, dimension: Dimension): number {
  const read = parseQuantity(text, dimension);
  if (!isQuantity(read)) throw new Error(`${text}: ${read.message}`);
  return read.value;
}

describe('an estimate', () => {
  it.each([
    ['149.6 %', 'ratio', '%', 2, '150 %'],
    ['149.6 %', 'ratio', '%', 3, '150 %'],
    ['152.3 lb/h', 'mass-flow', 'lb/h', 2, '150 lb/h'],
    ['152.3 lb/h', 'mass-flow', 'lb/h', 3, '152 lb/h'],
    ['0.04567 in', 'length', 'in', 2, '0.046 in'],
    ['12345 rpm', 'rotational-speed', 'rpm', 2, '12000 rpm'],
    ['999.6 hp', 'power', 'hp', 2, '1000 hp'],
    ['2.04 bar', 'pressure', 'bar', 2, '2 bar'],
    ['2.04 bar', 'pressure', 'bar', 3, '2.04 bar'],
    ['-43.7 mm', 'length', 'mm', 2, '-44 mm'],
    ['104.4 degF', 'temperature', 'degF', 2, '104 degF'],
    ['5.26 degC', 'temperature', 'degC', 2, '5 degC'],
    ['0 V', 'voltage', 'V', 2, '0 V'],
    ['0.853', 'ratio', '', 2, '0.85'],
    ['10.2 AWG', 'wire-size', 'AWG', 2, '10 AWG'],
  ] as [string, Dimension, string, 2 | 3, string][])('of %s (%s in %s, %i figures) is %s', (...row) => {
    const [text, dimension, unit, figures, shown] = row;
    const value = unit === 'AWG' ? si('10 AWG', dimension) * 0.98 : si(text, dimension);
    expect(estimate(value, dimension, unit, figures)).toBe(shown);
  });

  it.each([
    ['82.43 %', 'ratio', '%', '82 %'],
    ['149.6 %', 'ratio', '%', '150 %'],
    ['112.4 %', 'ratio', '%', '112 %'],
    ['5.613 %', 'ratio', '%', '5.6 %'],
    ['62.449 lb/h', 'injector-flow', 'lb/h', '62.4 lb/h'],
    ['13.137 V', 'voltage', 'V', '13.1 V'],
    ['47.6 degC', 'temperature', 'degC', '48 degC'],
    ['34.4 deg', 'angle', 'deg', '34 deg'],
    ['137.4 W', 'heat', 'W', '137 W'],
  ] as [string, Dimension, string, string][])('of %s (%s in %s) has the figures its kind deserves: %s', (...row) => {
    const [text, dimension, unit, shown] = row;
    expect(estimate(si(text, dimension), dimension, unit)).toBe(shown);
  });

  it.each([
    ['62.449 lb/h', '1.2 lb/h', '62.4 lb/h'],
    ['62.449 lb/h', '9 lb/h', '62 lb/h'],
    ['62.449 lb/h', '60 lb/h', '60 lb/h'],
  ])('of %s with a spread of %s has no digit that is worth nothing: %s', (text, spread, shown) => {
    const [value, width] = [si(text, 'injector-flow'), si(spread, 'injector-flow')];
    expect(estimate(value, 'injector-flow', 'lb/h', undefined, width)).toBe(shown);
  });

  it('is within its last figure', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-5, max: 1e7, noNaN: true }),
        fc.constantFrom(2 as const, 3 as const),
        (...drawn) => {
          const [value, figures] = drawn;
          const shown = Number.parseFloat(estimate(value, 'voltage', 'V', figures));
          expect(Math.abs(shown / value - 1)).toBeLessThanOrEqual(0.5001 * 10 ** (1 - figures));
        },
      ),
    );
  });
});

describe('a value against a limit', () => {
  it.each([
    ['152.3 lb/h', '150 lb/h', 'mass-flow', '152 lb/h', '150 lb/h'],
    ['1.402 ms', '1.4 ms', 'time', '1.402 ms', '1.400 ms'],
    ['1.524 ms', '1.4 ms', 'time', '1.52 ms', '1.4 ms'],
    ['1.4 ms', '1.4 ms', 'time', '1.4 ms', '1.4 ms'],
    ['20.34 psi', '14.7 psi', 'pressure', '20.3 psi', '14.7 psi'],
    ['3.142 psi', '15 psi', 'pressure', '3.14 psi', '15 psi'],
    ['62.3 %', '85 %', 'ratio', '62 %', '85 %'],
    ['85.2 %', '85 %', 'ratio', '85.2 %', '85.0 %'],
    ['84.96 %', '85 %', 'ratio', '84.96 %', '85.00 %'],
    ['149.5 lb/h', '149.63 lb/h', 'mass-flow', '149.5 lb/h', '149.6 lb/h'],
    ['120 lb/h', '149.63 lb/h', 'mass-flow', '120 lb/h', '150 lb/h'],
    ['5480 rpm', '5500 rpm', 'rotational-speed', '5480 rpm', '5500 rpm'],
    ['4000 rpm', '5525 rpm', 'rotational-speed', '4000 rpm', '5525 rpm'],
    ['-0.2 m', '0.3 m', 'length', '-0.2 m', '0.3 m'],
    ['0.0004 m', '0 m', 'length', '0.0004 m', '0 m'],
    ['41.3 degC', '41 degC', 'temperature', '41.3 degC', '41.0 degC'],
    ['46.2 degC', '41 degC', 'temperature', '46 degC', '41 degC'],
    ['14 AWG', '10 AWG', 'wire-size', '14 AWG', '10 AWG'],
  ] as [string, string, Dimension, string, string][])('%s against %s of %s is %s against %s', (...row) => {
    const [value, limit, dimension, shownValue, shownLimit] = row;
    const unit = /[^\d.\s-].*$/.exec(value)?.[0] ?? '';
    const shown = against(si(value, dimension), si(limit, dimension), dimension, unit);
    expect(shown).toEqual({ value: shownValue, limit: shownLimit });
  });

  it('of one gauge is told by area', () => {
    const area = si('10 AWG', 'wire-size');
    expect(against(area * 0.98, area, 'wire-size', 'AWG')).toEqual({ value: '5.16 mm^2', limit: '5.26 mm^2' });
  });

  it('is on the same side of it as shown, and close to what it is', () => {
    const close = fc
      .tuple(fc.double({ min: 1e-3, max: 1e5, noNaN: true }), fc.integer({ min: -9, max: -1 }), fc.boolean())
      .map(([limit, power, isAbove]) => ({ limit, value: limit * (1 + (isAbove ? 1 : -1) * 10 ** power) }));
    fc.assert(
      fc.property(close, fc.constantFrom('kPa', 'psi', 'bar'), ({ value, limit }, unit) => {
        const factor = si(`1 ${unit}`, 'pressure');
        const shown = against(value * factor, limit * factor, 'pressure', unit);
        const [one, other] = [Number.parseFloat(shown.value), Number.parseFloat(shown.limit)];
        expect(Math.sign(one - other), JSON.stringify(shown)).toBe(Math.sign(value - limit));
        expect(Math.abs(one / value - 1)).toBeLessThanOrEqual(0.00501);
        expect(Math.abs(other / limit - 1)).toBeLessThanOrEqual(0.00501);
      }),
      { numRuns: 1000 },
    );
  });

  it('is in a unit of its dimension', () => {
    expect(() => against(1, 2, 'length', 'psi')).toThrow(RangeError);
    expect(() => estimate(1, 'length', 'psi')).toThrow('psi is not a unit of length');
  });
});
