import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frontOf, type Measures, shownOf } from '../../../server/src/fit/front.ts';
import { hosePlan } from '../../../server/src/sheet/hose.ts';
import type { ShelfPart } from '../../../server/src/sheet/shelf.ts';
import { inOneGo } from '../../../server/src/text/steps.ts';
import { open, PARTS, SHEET, shop } from '../catalog/shop.ts';

const wagon = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
const withPump = (pump: string) => wagon.replace(/^ {2}pump: .*\n/m, pump);

type Pump = { flow: number; relief: number; current: number; cost: number | undefined };

const pumps = fc.array(
  fc.record({
    flow: fc.integer({ min: 60, max: 330 }),
    relief: fc.constantFrom(45, 88, 104),
    current: fc.integer({ min: 5, max: 14 }),
    cost: fc.option(fc.integer({ min: 80, max: 90 }), { nil: undefined }),
  }),
  { minLength: 1, maxLength: 4 },
);

const pumpText = ({ flow, relief, current, cost }: Pump, id: string) =>
  `  - { id: ${id}, ${cost === undefined ? '' : `cost: ${cost}, `}pump: { flow-at: [[40 psi, ${flow} L/h], [75 psi, ${Math.round(flow * 0.7)} L/h]], rated-voltage: 13.5 V, current: ${current} A, relief-pressure: ${relief} psi } }\n`;

/** The errors of a sheet, each with the stages it holds in. */
function errorsOf(catalog: string, text: string): Set<string> {
  const service = shop({ [PARTS]: catalog });
  open(service, SHEET, text);
  const errors = service.told(SHEET).filter(({ severity }) => severity === 'error');
  return new Set(errors.flatMap(({ found, stages }) => stages.map((stage) => `${found} ${stage}`)));
}

describe('choosing a part', () => {
  it('finds the parts that checking the text of every sheet one by one finds', { timeout: 240_000 }, () => {
    fc.assert(
      fc.property(pumps, (all) => {
        const catalog = `format: 1\nparts:\n${all.map((pump, index) => pumpText(pump, `p-${index}`)).join('')}`;
        const before = errorsOf(catalog, withPump('  pump: { placement: in-tank }\n'));
        const fitting = all.flatMap((_, index) => {
          const after = errorsOf(catalog, withPump(`  pump: { use: p-${index}, placement: in-tank }\n`));
          return [...after].some((error) => !before.has(error)) ? [] : [`p-${index}`];
        });
        const service = shop({ [PARTS]: catalog });
        open(service, SHEET, wagon);
        const fit = inOneGo(service.fit(SHEET, 'pump'));
        if (!fit || !('choice' in fit)) throw new Error('no choice');
        const { options, missed, alsoFit } = fit.choice;
        const shown = options.flatMap(({ placings }) => placings.map(({ part }) => part.id));
        expect(options.every(({ placings }) => placings.length === 1) || fitting.length === 0).toBe(true);
        if (fitting.length > 0) {
          expect(shown.filter((id) => !fitting.includes(id))).toEqual([]);
          expect(shown.length + alsoFit).toBe(fitting.length);
        }
        expect(missed.map(({ part }) => part.id).toSorted()).toEqual(
          all.map((_, index) => `p-${index}`).filter((id) => !fitting.includes(id)),
        );
      }),
      { numRuns: 5, seed: 12 },
    );
  });

  it('says why a part does not do it, in which stages, and puts the nearest miss first', { timeout: 60_000 }, () => {
    const catalog = `format: 1\nparts:\n${pumpText({ flow: 80, relief: 104, current: 6, cost: 81 }, 'far')}${pumpText({ flow: 112, relief: 104, current: 8, cost: 88 }, 'near')}${pumpText({ flow: 250, relief: 104, current: 9, cost: 99 }, 'good')}`;
    const service = shop({ [PARTS]: catalog });
    open(service, SHEET, wagon);
    const fit = inOneGo(service.fit(SHEET, 'pump'));
    if (!fit || !('choice' in fit)) throw new Error('no choice');
    expect(fit.choice.options[0]?.placings[0]?.part.id).toBe('good');
    expect(fit.choice.missed.map(({ part }) => part.id)).toEqual(['near', 'far']);
    expect(fit.choice.missed[1]?.rule).toBe('fuel-supply/pump-flow-short');
    expect(fit.choice.missed[1]?.reason).toMatch(/L\/h/);
  });

  it('puts a part without a price last, and never takes it for free', { timeout: 60_000 }, () => {
    const catalog = `format: 1\nparts:\n${pumpText({ flow: 190, relief: 104, current: 9, cost: undefined }, 'unpriced')}${pumpText({ flow: 160, relief: 104, current: 9, cost: 99 }, 'priced')}`;
    const service = shop({ [PARTS]: catalog });
    open(service, SHEET, wagon);
    const fit = inOneGo(service.fit(SHEET, 'pump'));
    if (!fit || !('choice' in fit)) throw new Error('no choice');
    expect(fit.choice.options.map(({ placings, cost }) => [placings[0]?.part.id, cost])).toEqual([
      ['priced', 99],
      ['unpriced', undefined],
    ]);
  });
});

describe('the front', () => {
  const measures = fc.record({
    cost: fc.option(fc.integer({ min: 1, max: 6 }), { nil: undefined }),
    margin: fc.option(fc.integer({ min: -2, max: 4 }), { nil: undefined }),
    changed: fc.integer({ min: 1, max: 3 }),
    wishes: fc.nat(3),
  });
  const value = ({ cost, margin, changed, wishes }: Measures) => [cost ?? 1e9, -(margin ?? -1e9), changed, -wishes];

  it('is what no other beats in something without being beaten in anything', () => {
    fc.assert(
      fc.property(fc.array(measures, { maxLength: 14 }), (all) => {
        const beaten = (one: Measures) =>
          all.some((other) => {
            const pairs = value(other).map((mine, index) => [mine, value(one)[index] as number] as const);
            return pairs.every(([mine, its]) => mine <= its) && pairs.some(([mine, its]) => mine < its);
          });
        const front = frontOf(all);
        expect(new Set(front)).toEqual(new Set(all.filter((one) => !beaten(one))));
        const shown = shownOf(front);
        expect(shown.length).toBeLessThanOrEqual(7);
        if (front.length > 0) {
          expect(Math.min(...shown.map((one) => value(one)[0] as number))).toBe(
            Math.min(...front.map((one) => value(one)[0] as number)),
          );
          expect(Math.min(...shown.map((one) => value(one)[1] as number))).toBe(
            Math.min(...front.map((one) => value(one)[1] as number)),
          );
        }
      }),
    );
  });
});

describe('hose by length', () => {
  const hose = (sold: 'piece' | 'length', each: number, cost = 10) =>
    ({ sold, costPer: { value: each }, cost }) as unknown as ShelfPart;

  it.each([
    ['by length in half meters', 'length', 0.5, [5.5, 5], 21, 210, 0],
    ['by length, the last step in part', 'length', 0.5, [5.2, 4.9], 21, 210, 0.4],
    ['two runs from one piece', 'piece', 7.6, [4, 3], 1, 10, 0.6],
    ['two runs from two pieces', 'piece', 3.7, [3, 3], 2, 20, 1.4],
    ['three runs packed into two', 'piece', 6, [4, 3, 2], 2, 20, 3],
  ] as const)('is bought %s', (_, sold, each, runs, pieces, cost, left) => {
    const plan = hosePlan(hose(sold, each), runs);
    expect(plan).toMatchObject({ pieces, cost });
    expect(plan?.left).toBeCloseTo(left, 9);
  });

  it('is not bought where a run is longer than a piece', () => {
    expect(hosePlan(hose('piece', 3), [3.5])).toBeUndefined();
  });
});
