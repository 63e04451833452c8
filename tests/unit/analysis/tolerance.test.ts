import { describe, expect, it } from 'vitest';
import { analyze } from '../../../server/src/analysis/analysis.ts';
import type { BuildSheet } from '../../../server/src/generated/build-sheet.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import type { Quantity } from '../../../server/src/units/quantity.ts';
import { wholeSheets } from '../../reference/whole-sheets.ts';
import { read } from '../sheet/marked.ts';
import { samples, sheetWith, stagesOf } from './sheets.ts';

const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37];

/** The point of number `index` of a Halton sequence: Halton, Numerische Mathematik 2 (1960) 84. */
function halton(index: number, base: number): number {
  let [result, share, rest] = [0, 1, index];
  for (; rest > 0; rest = Math.floor(rest / base)) {
    share /= base;
    result += share * (rest % base);
  }
  return result;
}

type Values = Partial<BuildSheet>;

/** The values of a sheet with its loose quantities, counted as they stand, each at a number within its tolerance. */
function placed(values: Values, at: (quantity: Quantity, count: number) => number): Values {
  let count = 0;
  const walk = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(walk);
    if (typeof value !== 'object' || value === null) return value;
    if (!('dimension' in value)) {
      return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, walk(inner)]));
    }
    const quantity = value as Quantity;
    if (quantity.low === quantity.high) return value;
    const number = at(quantity, count++);
    return { ...quantity, value: number, low: number, high: number };
  };
  return walk(values) as Values;
}

/** A low-discrepancy sample of what the tolerances of a sheet allow. */
function sampled(values: Values, points: number): Values[] {
  return Array.from({ length: points }, (_, index) =>
    placed(
      values,
      ({ low, high }, count) => low + halton(index + 1, PRIMES[count % PRIMES.length] as number) * (high - low),
    ),
  );
}

/** A sheet with its loose quantities at their ends, in every way. */
function corners(values: Values): Values[] {
  let loose = 0;
  placed(values, ({ value }, count) => {
    loose = count + 1;
    return value;
  });
  if (loose > 8) throw new Error(`${loose} tolerances have too many corners`);
  return Array.from({ length: 2 ** loose }, (_, corner) =>
    placed(values, ({ low, high }, count) => ((corner >> count) % 2 === 0 ? low : high)),
  );
}

/** Figures of other values of a sheet that lie outside the bounds the tolerances gave. */
function outside(text: string, others: (values: Values) => Values[]): string[] {
  const { values } = read(text);
  const bounded = analyze(values, noHouse).map(({ figures }) => figures);
  const found = new Map<string, string>();
  for (const other of others(values)) {
    analyze(other, noHouse).forEach(({ figures, name }, stage) => {
      for (const [id, { value }] of figures) {
        const bounds = bounded[stage]?.get(id);
        if (!bounds) continue;
        const { low = bounds.value, high = bounds.value } = bounds;
        const slack = 1e-7 * Math.max(Math.abs(low), Math.abs(high), 1e-9);
        if (value < low - slack || value > high + slack)
          found.set(`${id} of ${name}`, `${low} to ${high}, got ${value}`);
      }
    });
  }
  return [...found].map(([figure, what]) => `${figure}: ${what}`);
}

const sampleOf = (points: number) => (values: Values) => sampled(values, points);

const loose = samples.filter(([name, text]) => / \+\/- |\.\./.test(text) && name !== 'night-shift.build.yaml');

describe('the bounds of figures', () => {
  it.each(loose)('hold every figure of a low-discrepancy sample of %s', (_, text) => {
    expect(outside(text, sampleOf(60))).toEqual([]);
  });

  it.each([
    [
      'power and what it flows through',
      { power: '300 +/- 20 hp', displacement: '5.7 +/- 0.1 L', redline: '5600 +/- 200 rpm' },
    ],
    ['injectors and pressure', { staticFlow: '80 lb/h +/- 4 %', setPressure: '58 +/- 2 psi', power: '300 +/- 20 hp' }],
    ['the suction side', { hottestFuel: '40 +/- 8 degC', altitude: '100..1500 m', height: '-0.2..0.2 m' }],
    [
      'lines',
      { feedLength: '4..7 m', feedDiameter: '7.5..8.5 mm', suctionLength: '0.5..1 m', setPressure: '58 +/- 2 psi' },
    ],
    ['boost, altitude and voltage', { boost: '6 +/- 1 psi', altitude: '0..1500 m', dwellVoltage: '13.2..14.4 V' }],
    [
      'many at once',
      {
        power: '300 +/- 20 hp',
        altitude: '100..1500 m',
        hottestFuel: '40 +/- 8 degC',
        displacement: '5.7 +/- 0.1 L',
        redline: '5600 +/- 200 rpm',
        staticFlow: '80 lb/h +/- 4 %',
        feedLength: '4..7 m',
        setPressure: '58 +/- 2 psi',
        boost: '6 +/- 1 psi',
        dwellVoltage: '13.2..14.4 V',
      },
    ],
  ])('hold a sample over %s', (_, changed) => {
    expect(outside(sheetWith(changed), sampleOf(80))).toEqual([]);
  });

  it('hold the power a blower makes of what the engine made before it', () => {
    expect(outside(sheetWith({ power: '300 +/- 20 hp' }), sampleOf(20))).toEqual([]);
  });

  it.each([
    ['power, bore and voltage', { power: '300 +/- 20 hp', feedDiameter: '6.5..8.5 mm', dwellVoltage: '12.2..14.4 V' }],
    ['a pump near its end', { power: '560 +/- 60 hp', dwellVoltage: '12..14.4 V', setPressure: '70 +/- 8 psi' }],
    [
      'a hungry engine',
      { power: '700 +/- 90 hp', feedLength: '2..9 m', setPressure: '58 +/- 6 psi', altitude: '0..2000 m' },
    ],
    [
      'a thin line',
      { power: '500 +/- 80 hp', feedDiameter: '5 +/- 0.6 mm', feedLength: '4..9 m', height: '-0.3..0.4 m' },
    ],
    ['heat, height and boost', { hottestFuel: '40 +/- 8 degC', altitude: '100..2500 m', boost: '3 +/- 2 psi' }],
    [
      'small injectors',
      {
        staticFlow: '48 lb/h +/- 8 %',
        power: '330 +/- 40 hp',
        redline: '5600 +/- 500 rpm',
        dwellVoltage: '12..14.4 V',
      },
    ],
  ])('hold all corners of %s', (_, changed) => {
    expect(outside(sheetWith(changed), corners)).toEqual([]);
  });

  it.each(wholeSheets.filter(({ text }) => / \+\/- |\.\./.test(text)))('hold all corners of $name', ({ text }) => {
    expect(outside(text, corners)).toEqual([]);
  });

  it('are there for what the tolerance decides, and for nothing else', () => {
    const [stage] = stagesOf(sheetWith({ power: '300 +/- 20 hp' }));
    const demand = stage?.figures.get('demand-by-power');
    expect((demand?.low ?? 0) / (demand?.value ?? 0)).toBeCloseTo(280 / 300, 9);
    expect((demand?.high ?? 0) / (demand?.value ?? 0)).toBeCloseTo(320 / 300, 9);
    expect(stage?.figures.get('site-pressure')).not.toHaveProperty('low');
    expect(stage?.figures.get('air-by-volume')).not.toHaveProperty('low');
  });

  it('of a stage are its own', () => {
    const [now, blower] = stagesOf(sheetWith({ power: '300 +/- 20 hp' }));
    expect(now?.figures.get('demand-by-power')).toHaveProperty('low');
    expect(blower?.figures.get('demand-by-power')).not.toHaveProperty('low');
  });

  it('widen with the tolerance', () => {
    const width = (spread: number) => {
      const figure = stagesOf(sheetWith({ staticFlow: `80 +/- ${spread} lb/h` }))[0]?.figures.get('duty-redline');
      return (figure?.high ?? 0) - (figure?.low ?? 0);
    };
    expect(width(1)).toBeGreaterThan(0);
    expect(width(4)).toBeGreaterThan(width(1));
  });
});
