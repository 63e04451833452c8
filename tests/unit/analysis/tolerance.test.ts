import { describe, expect, it } from 'vitest';
import { analyze } from '../../../server/src/analysis/analysis.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import type { Quantity } from '../../../server/src/units/quantity.ts';
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

/** The values of a sheet with every loose quantity somewhere in its tolerance. */
function sampled(values: unknown, index: number, seen = new Map<string, number>()): unknown {
  if (Array.isArray(values)) return values.map((inner) => sampled(inner, index, seen));
  if (typeof values !== 'object' || values === null) return values;
  if ('dimension' in values) {
    const { low, high } = values as Quantity;
    if (low === high) return values;
    const base = PRIMES[seen.size % PRIMES.length] as number;
    seen.set(String(seen.size), base);
    const value = low + halton(index, base) * (high - low);
    return { ...values, value, low: value, high: value };
  }
  return Object.fromEntries(Object.entries(values).map(([name, inner]) => [name, sampled(inner, index, seen)]));
}

/** Figures of sampled sheets that lie outside the bounds the tolerances gave. */
function outside(text: string, points: number): string[] {
  const sheet = read(text);
  const bounded = analyze(sheet.values, noHouse);
  const found = new Map<string, string>();
  for (let index = 1; index <= points; index++) {
    const values = sampled(sheet.values, index) as typeof sheet.values;
    analyze(values, noHouse).forEach(({ figures, name }, stage) => {
      for (const [id, { value }] of figures) {
        const bounds = bounded[stage]?.figures.get(id);
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

const loose = samples.filter(([name, text]) => / \+\/- |\.\./.test(text) && name !== 'night-shift.build.yaml');

describe('the bounds of figures', () => {
  it.each(loose)('hold every figure of a low-discrepancy sample of %s', (_, text) => {
    expect(outside(text, 60)).toEqual([]);
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
    expect(outside(sheetWith(changed), 80)).toEqual([]);
  });

  it('hold the power a blower makes of what the engine made before it', () => {
    expect(outside(sheetWith({ power: '300 +/- 20 hp' }), 20)).toEqual([]);
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
