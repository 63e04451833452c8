import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  conversions,
  formatGiven,
  formatIn,
  formatNumber,
  formatValue,
  type Units,
} from '../../../server/src/units/format.ts';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { isQuantity, type Quantity } from '../../../server/src/units/quantity.ts';
import { type Dimension, dimensions, findUnit } from '../../../server/src/units/units.ts';

function read(text: string, dimension: Dimension): Quantity {
  const quantity = parseQuantity(text, dimension);
  if (!isQuantity(quantity)) throw new Error(`${text}: ${quantity.message}`);
  return quantity;
}

const anyDimension = fc.constantFrom(...(Object.keys(dimensions) as Dimension[]));

describe('a quantity as text', () => {
  it.each([
    [0, '0'],
    [1, '1'],
    [-2.5, '-2.5'],
    [62.4449, '62.44'],
    [1234.6, '1235'],
    [123456.7, '123457'],
    [1e6, '1.000e+6'],
    [0.00012346, '0.0001235'],
    [0.000012346, '1.235e-5'],
    [99.999, '100'],
  ])('%d is %s', (value, text) => {
    expect(formatNumber(value)).toBe(text);
  });

  it.each([
    ['58 psi', ['399.9 kPa']],
    ['4 bar', ['58.02 psi', '400 kPa']],
  ])('%s is also %s', (text, others) => {
    expect(conversions(read(text, 'pressure'))).toEqual(others);
  });

  it.each([
    ['12 AWG', ['3.309 mm^2']],
    ['4 mm^2', ['11 AWG']],
    ['50 mm^2', ['1/0 AWG']],
    ['300 mm^2', []],
    ['0 mm^2', []],
    ['-1 mm^2', []],
  ])('%s of wire is also %s', (text, others) => {
    expect(conversions(read(text, 'wire-size'))).toEqual(others);
  });

  it.each([
    [0.04, 'length', 'us', '1.57 in'],
    [5, 'length', 'us', '16.4 ft'],
    [0.04, 'length', 'si', '40 mm'],
    [5, 'length', 'si', '5 m'],
    [0.0031, 'time', 'us', '3.1 ms'],
    [0.85, 'ratio', 'us', '85 %'],
    [400e3, 'pressure', { system: 'us', own: { pressure: 'bar' } }, '4 bar'],
    [0.04, 'length', { system: 'us', own: { length: 'si' } }, '40 mm'],
    [250e3, 'power', { system: 'us', own: { pressure: 'bar' } }, '335 hp'],
  ] as [number, Dimension, Units, string][])('%d of %s in %j is %s', (value, dimension, units, text) => {
    expect(formatValue(value, dimension, units)).toBe(text);
  });

  it('is read back as the same value within what four digits hold', () => {
    const inUnits = anyDimension.chain((dimension) =>
      fc.tuple(
        fc.constant(dimension),
        fc.constantFrom(...dimensions[dimension].units.map(({ name }) => name).filter((name) => name !== 'AWG')),
      ),
    );
    fc.assert(
      fc.property(inUnits, fc.double({ min: -1e9, max: 1e9, noNaN: true }), ([dimension, name], number) => {
        const unit = findUnit(dimension, name);
        const value = number * (unit?.factor ?? 0) + (unit?.offset ?? 0);
        const again = read(formatIn(value, dimension, name), dimension);
        const written = (again.value - (unit?.offset ?? 0)) / (unit?.factor ?? 1);
        expect(Math.abs(written - number)).toBeLessThanOrEqual(Math.max(5.1e-4 * Math.abs(number), 1e-9));
      }),
    );
  });

  it('is read back in the unit that suits its size, in both systems', () => {
    fc.assert(
      fc.property(
        anyDimension.filter((dimension) => dimension !== 'wire-size'),
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        fc.constantFrom('us' as const, 'si' as const),
        (dimension, value, system) => {
          const again = read(formatGiven(value, dimension, system), dimension);
          const offset = dimension === 'temperature' ? 300 : dimension === 'octane' ? 1000 : 0; // octane is told in whole numbers
          return Math.abs(again.value - value) <= 5.1e-4 * (value + offset);
        },
      ),
    );
  });

  it('names the nearest gauge of a wire', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01e-6, max: 110e-6, noNaN: true }), (area) => {
        const again = read(formatValue(area, 'wire-size', 'us'), 'wire-size');
        return Math.abs(Math.log(again.value / area)) <= Math.log(92) / 39 + 1e-9;
      }),
    );
  });
});
