import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectedOf } from '../../../server/src/sheet/read-values.ts';
import { schemaAt } from '../../../server/src/sheet/schema.ts';
import { anything } from '../../../server/src/units/expected.ts';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { isQuantity } from '../../../server/src/units/quantity.ts';
import { type Dimension, type DimensionUnits, dimensions } from '../../../server/src/units/units.ts';

/** What is offered instead of a text in the field at a path. */
function offered(path: string, text: string): string[] {
  const schema = schemaAt(path.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step)));
  if (!schema?.dimension) throw new Error(`${path} is no quantity`);
  const read = parseQuantity(text, schema.dimension, expectedOf(schema));
  if (isQuantity(read)) throw new Error(`${text} is a quantity`);
  return read.instead;
}

describe('what is offered for', () => {
  it.each([
    ['engine.displacement', '4.4', ['4.4 L']],
    ['engine.displacement', '350', ['350 in^3']],
    ['engine.displacement', '1600', ['1600 cm^3']],
    ['engine.displacement', '50000', []],
    ['engine.displacement', '18 gal', []],
    ['engine.displacement', '4,900 cc', ['4900 cc']],
    ['engine.displacement', '4,9 L', ['4.9 L']],
    ['engine.displacement', '4.9 L, 1,000peak', []],
    ['engine.displacement', '4.9 litters', ['4.9 L']],
    ['engine.redline', '5,500 rpm', ['5500 rpm']],
    ['engine.redline', '5 500 rpm', ['5500 rpm']],
    ['engine.redline', '5,500', ['5500 rpm']],
    ['engine.redline', '5500 rmp', ['5500 rpm']],
    ['engine.redline', '55OO rpm', ['5500 rpm']],
    ['engine.redline', '5500 hp', []],
    ['stages.0.power', '2O5 hp', ['205 hp']],
    ['stages.0.power', '350', ['350 hp', '350 kW']],
    ['stages.0.power', '350 psi', []],
    ['stages.0.power', '1.234,5 hp', ['1234.5 hp']],
    ['stages.0.power', '300-350 hp', ['300..350 hp']],
    ['stages.0.power', '300 to 350 hp', ['300..350 hp']],
    ['stages.0.power', '300 hp - 350 hp', ['300 hp..350 hp']],
    ['stages.0.power', '350 hp - 15', []],
    ['stages.0.power', '350..300 hp', ['300..350 hp']],
    ['stages.0.power', '350 +/- 4 %', ['350 hp +/- 4 %', '350 kW +/- 4 %']],
    ['stages.0.boost', '15 psia', []],
    ['stages.0.boost', '5 inHg vacuum', []],
    ['site.altitude', '900', ['900 m', '900 ft']],
    ['site.altitude', '3000', ['3000 ft', '3000 m']],
    ['site.altitude', '9000', ['9000 ft']],
    ['site.altitude', '1,200 m', ['1200 m']],
    ['site.altitude', '0,500 km', ['0.500 km']],
    ['site.hottest', '106', ['106 degF']],
    ['site.hottest', '41', ['41 degC', '41 degF']],
    ['site.hottest', '10O F', []],
    ['fuel-system.tank.capacity', '18', ['18 gal', '18 L']],
    ['fuel-system.tank.capacity', '18 galons', ['18 gal']],
    ['fuel-system.tank.capacity', '18 lb', []],
    ['fuel-system.regulator.pressure', '4 bar absolute', []],
    ['fuel-system.regulator.pressure', '58', ['58 psi', '58 kPa']],
    ['throttle-body.injectors.static-flow', '80 lb', ['80 lb/h']],
    ['throttle-body.injectors.static-flow', '630 g', ['630 g/min']],
    ['throttle-body.injectors.static-flow', '80 L/h', []],
    ['throttle-body.injectors.dead-time', '0.9', ['0.9 ms']],
    ['throttle-body.bores.diameter', '1,75 in', ['1.75 in']],
    ['throttle-body.bores.diameter', '44 decimeters', []],
    ['electrical.pump-circuit.wire', '12', ['12 AWG', '12 mm^2']],
    ['electrical.pump-circuit.wire', '4/0', ['4/0 AWG']],
    ['electrical.pump-circuit.wire', '4 mm', []],
    ['fuel-system.pump.flow-at.0.1', '255', ['255 L/h']],
    ['fuel-system.pump.flow-at.0.1', '255 L', ['255 L/h']],
  ])('%s: %s is %j', (path, text, texts) => {
    expect(offered(path, text)).toEqual(texts);
  });

  it('a unit near in spelling is never one of another prefix', () => {
    for (const text of ['5 dm^3', '5 kPas', '5 GPa', '5 kbars', '5 nanoseconds', '5 mils', '5 kN m', '5 Mm', '5 dL'])
      for (const dimension of Object.keys(dimensions) as Dimension[]) {
        const read = parseQuantity(text, dimension);
        if (!isQuantity(read)) expect(read.instead, `${text} of ${dimension}`).toEqual([]);
        else expect(text).toBe('5 kPas');
      }
  });
});

const anyDimension = fc.constantFrom(...(Object.keys(dimensions) as Dimension[]));

const anyUnit = fc.constantFrom(
  '',
  ...Object.values(dimensions).flatMap(({ units }: DimensionUnits) =>
    units.flatMap(({ name, also = [] }) => [name, ...also]),
  ),
  ...[
    'horses',
    'galons',
    'ponds per hour',
    'bar gauge',
    'psia',
    'inHg vacuum',
    'L, 1,000peak',
    'hp at idle',
    'degres F',
  ],
);

/** A number with its digits, and the values it may be read as. */
const anyNumber = fc.oneof(
  fc.nat(99_999).map((value) => ({ text: String(value), values: [value] })),
  fc
    .tuple(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 100, max: 999 }), fc.constantFrom(',', ' ', '.', '’'))
    .map(([high, low, sign]) => ({ text: `${high}${sign}${low}`, values: [high * 1000 + low, high + low / 1000] })),
  fc
    .tuple(fc.nat(99), fc.nat(99), fc.constantFrom(',', '.'))
    .map(([whole, part, sign]) => ({ text: `${whole}${sign}${part}`, values: [Number(`${whole}.${part}`)] })),
  fc
    .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }), fc.constantFrom('O', 'o'))
    .map(([first, last, letter]) => ({ text: `${first}${letter}${last}`, values: [first * 100 + last] })),
  fc.nat(20).map((whole) => ({ text: `${whole}-1/2`, values: [whole + 0.5] })),
  fc.nat(20).map((whole) => ({ text: `${whole}½`, values: [whole + 0.5] })),
);

describe('every text offered', () => {
  it('is a quantity with the number that is written, whatever the unit', () => {
    fc.assert(
      fc.property(anyDimension, anyNumber, anyUnit, fc.constantFrom('', ' '), (dimension, number, unit, space) => {
        const written = `${number.text}${space}${unit}`;
        const error = parseQuantity(written, dimension);
        if (isQuantity(error)) return;
        for (const instead of error.instead) {
          const again = parseQuantity(instead, dimension);
          if (!isQuantity(again)) throw new Error(`${written} of ${dimension}: ${instead}: ${again.message}`);
          const isRange = instead.includes('..');
          const isPlain = dimension !== 'wire-size' && !isRange;
          if (isPlain) expect(number.values, `${written} of ${dimension}: ${instead}`).toContain(numberIn(instead));
          const read = isRange ? written.replace(/to 1$/, '1') : written;
          expect(digits(instead), `${written}: ${instead}`).toBe(digits(read));
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('lies in the range of the field', () => {
    fc.assert(
      fc.property(anyDimension, anyNumber, anyUnit, fc.double({ min: 0, max: 1e6, noNaN: true }), (...drawn) => {
        const [dimension, number, unit, to] = drawn;
        const error = parseQuantity(`${number.text} ${unit}`, dimension, { ...anything, from: 0, to });
        if (isQuantity(error)) return;
        for (const instead of error.instead) {
          const again = parseQuantity(instead, dimension);
          expect(isQuantity(again) && again.low >= 0 && again.high <= to).toBe(true);
        }
      }),
    );
  });
});

/** The digits of a text, a letter O as zero; those of units such as `in^3` or `H2O` left out. */
function digits(text: string): string {
  return text
    .replaceAll(/(?<=\d)O(?=\d)/gi, '0')
    .replaceAll(/[\^a-z][23](?!\d)|h2[o0]|:1|to 1|1\/(s|min)/gi, '')
    .replaceAll('½', '12')
    .replaceAll(/\D/g, '');
}

/** The value of the number at the start of a text that is a quantity. */
function numberIn(text: string): number {
  const read = parseQuantity(/^[\d.,/½ -]*[\d½]/.exec(text.replace(/ ?1\/(s|min)$/, ''))?.[0] ?? '', 'ratio-number');
  return isQuantity(read) ? read.value : Number.NaN;
}
