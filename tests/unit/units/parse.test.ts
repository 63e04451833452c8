import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { isQuantity, type Quantity } from '../../../server/src/units/quantity.ts';
import { type Dimension, type DimensionUnits, dimensions } from '../../../server/src/units/units.ts';

const HP = 745.6998715822702;

function read(text: string, dimension: Dimension): Quantity {
  const quantity = parseQuantity(text, dimension);
  if (!isQuantity(quantity)) throw new Error(`${text}: ${quantity.message}`);
  return quantity;
}

describe('a quantity', () => {
  it.each([
    ['350 hp', 'power', 350 * HP, 'hp'],
    ['350hp', 'power', 350 * HP, 'hp'],
    ['  350   hp  ', 'power', 350 * HP, 'hp'],
    ['1e3 W', 'power', 1000, 'W'],
    ['1_000 W', 'power', 1000, 'W'],
    ['.5 m', 'length', 0.5, 'm'],
    ['5. m', 'length', 5, 'm'],
    ['+5 m', 'length', 5, 'm'],
    ['-430 m', 'length', -430, 'm'],
    ['3/8 in', 'length', 0.009525, 'in'],
    ['1 3/4 in', 'length', 0.04445, 'in'],
    ['1-3/4 in', 'length', 0.04445, 'in'],
    ['-1 3/4 in', 'length', -0.04445, 'in'],
    ['1 3/4"', 'length', 0.04445, 'in'],
    ["6'", 'length', 1.8288, 'ft'],
    ['100 µm', 'length', 1e-4, 'um'],
    ['40 degC', 'temperature', 313.15, 'degC'],
    ['104 °F', 'temperature', 313.15, 'degF'],
    ['-40 C', 'temperature', 233.15, 'degC'],
    ['43.5 psi', 'pressure', 299921.942253, 'psi'],
    ['43.5 psig', 'pressure', 299921.942253, 'psi'],
    ['15 psia', 'absolute-pressure', 103421.359398, 'psi'],
    ['750 1/min', 'rotational-speed', 12.5, 'rpm'],
    ['0.45 lb/(hp*h)', 'specific-consumption', 7.603467348e-8, 'lb/(hp*h)'],
    ['0.45 lb/hp/h', 'specific-consumption', 7.603467348e-8, 'lb/(hp*h)'],
    ['840 cc/min', 'injector-flow', 0.01008, 'cc/min'],
    ['85 %', 'ratio', 0.85, '%'],
    ['0.85', 'ratio', 0.85, ''],
    ['9.1', 'ratio-number', 9.1, ''],
    ['9.1:1', 'ratio-number', 9.1, ''],
    ['2.5 mm^2', 'wire-size', 2.5e-6, 'mm^2'],
    ['12 AWG', 'wire-size', 3.308773e-6, 'AWG'],
    ['12 ga', 'wire-size', 3.308773e-6, 'AWG'],
    ['1/0 AWG', 'wire-size', 5.347512e-5, 'AWG'],
    ['0 AWG', 'wire-size', 5.347512e-5, 'AWG'],
    ['00 AWG', 'wire-size', 6.743088e-5, 'AWG'],
    ['4/0 awg', 'wire-size', 1.072193e-4, 'AWG'],
    ['40 AWG', 'wire-size', 5.010361e-9, 'AWG'],
  ] as [string, Dimension, number, string][])('%s of %s is %d in SI', (text, dimension, value, unit) => {
    const quantity = read(text, dimension);
    expect(quantity.value).toBeCloseTo(value, -Math.floor(Math.log10(Math.abs(value))) + 5);
    expect([quantity.low, quantity.high]).toEqual([quantity.value, quantity.value]);
    expect(quantity).toMatchObject({ dimension, unit, text });
  });

  it.each([
    ['350 +/- 15 hp', 'power', 335 * HP, 350 * HP, 365 * HP],
    ['350 hp +/- 15 hp', 'power', 335 * HP, 350 * HP, 365 * HP],
    ['350 hp +/- 15', 'power', 335 * HP, 350 * HP, 365 * HP],
    ['350 hp + / - 15 hp', 'power', 335 * HP, 350 * HP, 365 * HP],
    ['350 hp ± 4 %', 'power', 336 * HP, 350 * HP, 364 * HP],
    ['350 hp±4%', 'power', 336 * HP, 350 * HP, 364 * HP],
    ['100 kW +/- 500 W', 'power', 99_500, 100_000, 100_500],
    ['85 % +/- 2 %', 'ratio', 0.83, 0.85, 0.87],
    ['85 +/- 2 %', 'ratio', 0.83, 0.85, 0.87],
    ['0.85 +/- 0.02', 'ratio', 0.83, 0.85, 0.87],
    ['9 +/- 0.1', 'ratio-number', 8.9, 9, 9.1],
    ['40 degC +/- 5 K', 'temperature', 308.15, 313.15, 318.15],
    ['40 degC +/- 9 degF', 'temperature', 308.15, 313.15, 318.15],
    ['40 degC +/- 5 %', 'temperature', 311.15, 313.15, 315.15],
    ['-40 m +/- 10 %', 'length', -44, -40, -36],
    ['1.2..1.4 ms', 'time', 0.0012, 0.0013, 0.0014],
    ['1.2 ms .. 1400 us', 'time', 0.0012, 0.0013, 0.0014],
    ['12 V..14', 'voltage', 12, 13, 14],
    ['9..10', 'ratio-number', 9, 9.5, 10],
    ['80..90 %', 'ratio', 0.8, 0.85, 0.9],
    ['30..40 degC', 'temperature', 303.15, 308.15, 313.15],
  ] as [string, Dimension, number, number, number][])(
    '%s of %s runs from %d over %d to %d',
    (text, dimension, ...ends) => {
      const { low, value, high } = read(text, dimension);
      for (const [index, end] of [low, value, high].entries()) expect(end / (ends[index] ?? 0)).toBeCloseTo(1, 9);
    },
  );
});

/** A bad text with the wrong part between guillemets, its message, and the first text offered instead. */
const bad: [string, Dimension, string, string | undefined][] = [
  ['«350»', 'power', '`350` needs a unit of power: `hp`, `kW`, `PS`, `W`.', '350 hp'],
  ['  «350» ', 'power', '`350` needs a unit of power: `hp`, `kW`, `PS`, `W`.', '350 hp'],
  ['«-40»', 'temperature', '`-40` needs a unit of temperature: `degC`, `degF`, `K`.', '-40 degC'],
  ['«12..14»', 'voltage', '`12..14` needs a unit of voltage: `V`, `mV`, `kV`.', '12..14 V'],
  ['«350 +/- 4 %»', 'power', '`350` needs a unit of power: `hp`, `kW`, `PS`, `W`.', '350 hp +/- 4 %'],
  ['«12»', 'wire-size', '`12` needs a unit of wire size: `mm^2`, `AWG`.', '12 mm^2'],
  [
    '350 «psi»',
    'power',
    '`psi` is a unit of pressure; this field takes a unit of power: `hp`, `kW`, `PS`, `W`.',
    '350 hp',
  ],
  [
    '350«psi»',
    'power',
    '`psi` is a unit of pressure; this field takes a unit of power: `hp`, `kW`, `PS`, `W`.',
    '350 hp',
  ],
  [
    '350 «horses»',
    'power',
    '`horses` is not a unit this sheet knows; this field takes a unit of power: `hp`, `kW`, `PS`, `W`.',
    '350 hp',
  ],
  [
    '350 hp +/- 5 «psi»',
    'power',
    '`psi` is a unit of pressure; this field takes a unit of power: `hp`, `kW`, `PS`, `W`.',
    '350 hp +/- 5 hp',
  ],
  [
    '12 V..14 «A»',
    'voltage',
    '`A` is a unit of current; this field takes a unit of voltage: `V`, `mV`, `kV`.',
    '12 V..14 V',
  ],
  [
    '15 «psia»',
    'pressure',
    '`psia` is a unit of absolute pressure; this field takes a unit of pressure: `psi`, `kPa`, `bar`, `inHg`, `mbar`.',
    '15 psi',
  ],
  ['9.1 «rpm»', 'ratio-number', '`rpm` is a unit of rotational speed; this field takes a bare number.', '9.1'],
  ['«3,500 rpm»', 'rotational-speed', 'Write thousands without commas.', '3500 rpm'],
  ['«1,234,567.8 W»', 'power', 'Write thousands without commas.', '1234567.8 W'],
  ['«3,5 L»', 'volume', 'Write decimals with a point.', '3.5 L'],
  ['«1.4..1.2 ms»', 'time', 'A range runs from the lower to the higher value.', '1.2..1.4 ms'],
  ['«350 hp +/- -15 hp»', 'power', 'Write a tolerance without a sign, such as `+/- 5 %`.', undefined],
  ['«1e999 W»', 'power', 'This number is too large.', undefined],
  ['«1/0 in»', 'length', 'The lower number of a fraction cannot be 0.', undefined],
  ['«12.5 AWG»', 'wire-size', 'A wire gauge is a whole number, such as `12 AWG`, or `1/0 AWG`.', undefined],
  ['«5/0 AWG»', 'wire-size', 'Wire gauges run from `4/0 AWG`, the thickest, to `40 AWG`.', undefined],
  ['«41 AWG»', 'wire-size', 'Wire gauges run from `4/0 AWG`, the thickest, to `40 AWG`.', undefined],
  ['«hp»', 'power', '`hp` is not a quantity; write a number and a unit, such as `2.5 hp`.', undefined],
  ['«thick»', 'wire-size', '`thick` is not a quantity; write a number and a unit, such as `12 AWG`.', undefined],
  ['«»', 'power', 'Nothing is written here; write a number and a unit, such as `2.5 hp`.', undefined],
];

describe('what is no quantity', () => {
  it.each(bad)('%s of %s', (marked, dimension, message, instead) => {
    const start = marked.indexOf('«');
    const end = marked.indexOf('»') - 1;
    const text = marked.replace('«', '').replace('»', '');
    const error = parseQuantity(text, dimension);
    expect(isQuantity(error)).toBe(false);
    expect(error).toMatchObject({ message, start, end });
    expect((error as { instead: string[] }).instead[0]?.trim()).toBe(instead);
  });

  it('offers the usual units of the field first', () => {
    const error = parseQuantity('12', 'wire-size', () => ['AWG']);
    expect((error as { instead: string[] }).instead).toEqual(['12 AWG', '12 mm^2']);
  });

  it('offers only texts that are quantities', () => {
    fc.assert(
      fc.property(anyDimension, numberText, unitText, (dimension, number, unit) => {
        const error = parseQuantity(`${number}${unit}`, dimension);
        if (isQuantity(error)) return;
        for (const instead of error.instead) {
          const again = parseQuantity(instead, dimension);
          const isGauge = instead.endsWith('AWG');
          if (!isQuantity(again) && !isGauge) throw new Error(`${number}${unit}: ${instead}: ${again.message}`);
        }
      }),
    );
  });

  it('is told within the text, whatever the text', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.string({ unit: 'binary' })), anyDimension, (text, dimension) => {
        const error = parseQuantity(text, dimension);
        if (isQuantity(error)) return [error.value, error.low, error.high].every(Number.isFinite);
        return 0 <= error.start && error.start <= error.end && error.end <= text.length && error.message.endsWith('.');
      }),
    );
  });
});

const anyDimension = fc.constantFrom(...(Object.keys(dimensions) as Dimension[]));
const numberText = fc.constantFrom('1', '0', '-3', '2.5', '1e3', '3/8', '1 3/4', '12', '1..2', '5 +/- 1', '7 +/- 2 %');
const unitText = fc.constantFrom(
  '',
  ' ',
  ...Object.values(dimensions).flatMap(({ units }: DimensionUnits) =>
    units.flatMap(({ name, also = [] }) => [` ${name}`, ...also]),
  ),
  ' horses',
);
