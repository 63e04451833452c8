import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity } from '../../../server/src/units/parse.ts';
import { isQuantity, type Quantity } from '../../../server/src/units/quantity.ts';
import { type Dimension, dimensions } from '../../../server/src/units/units.ts';

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
    ['840 cm³/min', 'injector-flow', 0.01008, 'cm^3/min'],
    ['3½ in', 'length', 0.0889, 'in'],
    ['3 ½"', 'length', 0.0889, 'in'],
    ['3-½"', 'length', 0.0889, 'in'],
    ['3-1/2"', 'length', 0.0889, 'in'],
    ['3 1⁄2 in.', 'length', 0.0889, 'in'],
    ['⅜ in', 'length', 0.009525, 'in'],
    ['-½ in', 'length', -0.0127, 'in'],
    ['−430 m', 'length', -430, 'm'],
    ['3-inch', 'length', 0.0762, 'in'],
    ['1’', 'length', 0.3048, 'ft'],
    ['18 gallons', 'capacity', 0.068137412, 'gal'],
    ['18 US gal', 'capacity', 0.068137412, 'gal'],
    ['302 cubic inches', 'volume', 0.00494889333, 'in^3'],
    ['302 cu. in.', 'volume', 0.00494889333, 'in^3'],
    ['302 cu in', 'volume', 0.00494889333, 'in^3'],
    ['4900 cc', 'volume', 0.0049, 'cm^3'],
    ['5.7 Liters', 'volume', 0.0057, 'L'],
    ['80 pounds per hour', 'injector-flow', 0.01007983, 'lb/h'],
    ['80 lbs/hr', 'injector-flow', 0.01007983, 'lb/h'],
    ['2 lb/min', 'mass-flow', 0.01511975, 'lb/min'],
    ['70 gallons per hour', 'volume-flow', 7.3605229e-5, 'gal/h'],
    ['800 cubic feet per minute', 'air-flow', 0.3775579, 'cfm'],
    ['350 horsepower', 'power', 350 * HP, 'hp'],
    ['260 kilowatts', 'power', 260_000, 'kW'],
    ['95 degrees F', 'temperature', 308.15, 'degF'],
    ['95 degrees Fahrenheit', 'temperature', 308.15, 'degF'],
    ['35 ℃', 'temperature', 308.15, 'degC'],
    ['750 revolutions per minute', 'rotational-speed', 12.5, 'rpm'],
    ['0.6 ohms', 'resistance', 0.6, 'ohm'],
    ['0.6 \u2126', 'resistance', 0.6, 'ohm'],
    ['4 millihenries', 'inductance', 0.004, 'mH'],
    ['9.1 to 1', 'ratio-number', 9.1, ''],
    ['4 bar gauge', 'pressure', 4e5, 'bar'],
    ['4 barg', 'pressure', 4e5, 'bar'],
    ['4 bar (g)', 'pressure', 4e5, 'bar'],
    ['58 psi gauge', 'pressure', 399895.9, 'psi'],
    ['58 PSIG', 'pressure', 399895.9, 'psi'],
    ['45 kPa abs', 'absolute-pressure', 45_000, 'kPa'],
    ['45 kPa(a)', 'absolute-pressure', 45_000, 'kPa'],
    ['1 bar absolute', 'absolute-pressure', 1e5, 'bar'],
    ['21 inHg abs', 'absolute-pressure', 71114.16, 'inHg'],
    ['1.5 inches of mercury', 'depression', 5079.583, 'inHg'],
    ['1.5 in Hg vacuum', 'depression', 5079.583, 'inHg'],
    ['10 inches of water', 'depression', 2490.889, 'inH2O'],
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
    ['350 hp +- 15 hp', 'power', 335 * HP, 350 * HP, 365 * HP],
    ['1.2...1.4 ms', 'time', 0.0012, 0.0013, 0.0014],
    ['1.2 … 1.4 ms', 'time', 0.0012, 0.0013, 0.0014],
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

describe('a vacuum', () => {
  it.each([
    ['15 inHg vacuum', 15],
    ['15 inHg vac', 15],
    ['15 in. of vacuum', 15],
    ['15 inches of mercury vacuum', 15],
    ['15" vacuum', 15],
    ['50.79583 kPa vacuum', 15],
  ])('%s runs down from the air at sea level', (text, inches) => {
    const quantity = read(text, 'absolute-pressure');
    expect(quantity.value).toBeCloseTo(101_325 - inches * 3386.38864, 0);
    expect(quantity.note).toMatch(/sea level, 101\.325 kPa/);
  });

  it.each([
    ['14..16 inHg vacuum', 16, 15, 14],
    ['15 +/- 1 inHg vacuum', 16, 15, 14],
    ['15 inHg vacuum +/- 1 inHg', 16, 15, 14],
    ['20 inHg vacuum +/- 10 %', 22, 20, 18],
  ])('%s has its lowest pressure at the strongest vacuum', (text, ...inches) => {
    const { low, value, high } = read(text, 'absolute-pressure');
    for (const [index, end] of [low, value, high].entries())
      expect(end).toBeCloseTo(101_325 - (inches[index] ?? 0) * 3386.38864, 3);
  });
});

/** A bad text with the wrong part between guillemets, and its message. */
const bad: [string, Dimension, string][] = [
  ['«350»', 'power', '"350" needs a unit of power: "hp", "kW", "PS", "W".'],
  ['  «350» ', 'power', '"350" needs a unit of power: "hp", "kW", "PS", "W".'],
  ['«-40»', 'temperature', '"-40" needs a unit of temperature: "degC", "degF", "K".'],
  ['«12..14»', 'voltage', '"12..14" needs a unit of voltage: "V", "mV", "kV".'],
  ['«350 +/- 4 %»', 'power', '"350" needs a unit of power: "hp", "kW", "PS", "W".'],
  ['«12»', 'wire-size', '"12" needs a unit of wire size: "mm^2", "AWG".'],
  ['350 «psi»', 'power', '"psi" is a unit of pressure; this field takes a unit of power: "hp", "kW", "PS", "W".'],
  ['350«psi»', 'power', '"psi" is a unit of pressure; this field takes a unit of power: "hp", "kW", "PS", "W".'],
  [
    '350 «ponies»',
    'power',
    '"ponies" is not a unit this sheet knows; this field takes a unit of power: "hp", "kW", "PS", "W".',
  ],
  [
    '350 hp +/- 5 «psi»',
    'power',
    '"psi" is a unit of pressure; this field takes a unit of power: "hp", "kW", "PS", "W".',
  ],
  ['12 V..14 «A»', 'voltage', '"A" is a unit of current; this field takes a unit of voltage: "V", "mV", "kV".'],
  [
    '0.6 «Mohm»',
    'resistance',
    '"Mohm" is not a unit this sheet knows; this field takes a unit of resistance: "ohm", "mohm", "kohm".',
  ],
  [
    '15 «psia»',
    'pressure',
    'This field takes a gauge pressure: take off the pressure of the air, about 14.7 psi or 101 kPa at sea level.',
  ],
  [
    '4 «bar gauge»',
    'absolute-pressure',
    'This field takes an absolute pressure: add the pressure of the air, about 14.7 psi or 101 kPa at sea level.',
  ],
  ['5 «inHg vacuum»', 'pressure', 'This field takes a pressure above that of the air, not a vacuum.'],
  ['9.1 «rpm»', 'ratio-number', '"rpm" is a unit of rotational speed; this field takes a bare number.'],
  [
    '350 hp «at the flywheel»',
    'power',
    '"at the flywheel" is left over after "350 hp"; a field takes one quantity, and the rest belongs in a comment behind "#".',
  ],
  [
    '4.9 L«, 1,000peak»',
    'volume',
    '", 1,000peak" is left over after "4.9 L"; a field takes one quantity, and the rest belongs in a comment behind "#".',
  ],
  ['«3,500 rpm»', 'rotational-speed', 'Write thousands without commas.'],
  ['«1,234,567.8 W»', 'power', 'Write thousands without commas.'],
  ['«3,5 L»', 'volume', 'Write decimals with a point.'],
  ['«2O5 hp»', 'power', 'A letter O stands in this number where a zero belongs.'],
  ['«1.4..1.2 ms»', 'time', 'A range runs from the lower to the higher value.'],
  ['«16..14 inHg vacuum»', 'absolute-pressure', 'A range runs from the lower to the higher value.'],
  ['«350 hp +/- -15 hp»', 'power', 'Write a tolerance without a sign, such as "+/- 5 %".'],
  ['«1e999 W»', 'power', 'This number is too large.'],
  ['«1/0 in»', 'length', 'The lower number of a fraction cannot be 0.'],
  ['«12.5 AWG»', 'wire-size', 'A wire gauge is a whole number, such as "12 AWG", or "1/0 AWG".'],
  ['«0/0 AWG»', 'wire-size', 'A wire gauge is a whole number, such as "12 AWG", or "1/0 AWG".'],
  ['«5/0 AWG»', 'wire-size', 'Wire gauges run from "4/0 AWG", the thickest, to "40 AWG".'],
  ['«41 AWG»', 'wire-size', 'Wire gauges run from "4/0 AWG", the thickest, to "40 AWG".'],
  ['«hp»', 'power', '"hp" is not a quantity; write a number and a unit, such as "2.5 hp".'],
  ['«thick»', 'wire-size', '"thick" is not a quantity; write a number and a unit, such as "12 AWG".'],
  ['«»', 'power', 'Nothing is written here; write a number and a unit, such as "2.5 hp".'],
  [`«${'9'.repeat(101)}»`, 'power', 'This is too long for a quantity; write a number and a unit, such as "2.5 hp".'],
];

describe('what is no quantity', () => {
  it.each(bad)('%s of %s', (marked, dimension, message) => {
    const start = marked.indexOf('«');
    const end = marked.indexOf('»') - 1;
    const text = marked.replace('«', '').replace('»', '');
    const error = parseQuantity(text, dimension);
    expect(isQuantity(error)).toBe(false);
    expect(error).toMatchObject({ message, start, end });
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
