import { readFileSync } from 'node:fs';
import { setImmediate } from 'node:timers/promises';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { identities } from '../../../server/src/checking/identity.ts';
import { choose, sorted } from '../../../server/src/fit/choose.ts';
import type { Choosing, Trial, Values } from '../../../server/src/fit/choosing.ts';
import { combine } from '../../../server/src/fit/combine.ts';
import { bestOf, type Option, optionOf } from '../../../server/src/fit/option.ts';
import { valuesWith, valuesWithLater } from '../../../server/src/fit/slot-values.ts';
import { changedValues } from '../../../server/src/sheet/changed.ts';
import type { ShelfPart } from '../../../server/src/sheet/shelf.ts';
import { type Slot, slotNamed, slots } from '../../../server/src/sheet/slots.ts';
import { inOneGo } from '../../../server/src/text/steps.ts';
import { choosingFor, filled, judged, newErrors, product } from './one-by-one.ts';

const wagon = readFileSync('samples/quarry-wagon.build.yaml', 'utf8');
/** The wagon with a blower as its last stage, and nothing in the slots that are chosen for. */
const open = wagon
  .replace('\nthrottle-body:', '\n  - { name: blower, power: 330 hp, induction: roots, boost: 4 psi }\nthrottle-body:')
  .replace(/^ {2}pump: .*$/m, '  pump: { placement: in-tank }')
  .replace(/^ {2}feed: .*$/m, '  feed: { length: 5.5 m, elbows-90: 3 }')
  .replace(/^ {2}return: .*$/m, '  return: { length: 5 m }')
  .replace(/^ {2}regulator: .*$/m, '  regulator: { reference: atmosphere }')
  .replace(/^ {2}pump-circuit: .*$/m, '  pump-circuit: { length: 5 m, ground: wire-to-battery }')
  .replace(/^fuel: /m, 'wishes: { budget: 420, external-pump: false, keep-tank: true }\nfuel: ');

const GROUP = ['pump', 'feed', 'return', 'regulator', 'pump-circuit'].map((name) => slotNamed(name) as Slot);

const cost = fc.option(fc.integer({ min: 20, max: 60 }), { nil: undefined, freq: 6 });
const some = <T>(one: fc.Arbitrary<T>, most: number) => fc.array(one, { minLength: 1, maxLength: most });
const catalogs = fc.record({
  pumps: some(
    fc.record({
      flow: fc.integer({ min: 120, max: 420 }),
      relief: fc.constantFrom(60, 95, 110),
      current: fc.integer({ min: 6, max: 16 }),
      cost,
    }),
    3,
  ),
  lines: some(
    fc.record({
      bore: fc.constantFrom(5, 6, 8, 10),
      material: fc.constantFrom('ptfe', 'rubber-injection-alcohol', 'rubber-low-pressure'),
      sold: fc.constantFrom('length', 'piece'),
      cost,
    }),
    3,
  ),
  regulators: some(fc.record({ pressure: fc.constantFrom(36, 43.5, 52, 58), cost }), 2),
  circuits: some(fc.record({ wire: fc.constantFrom(16, 12, 10), fuse: fc.constantFrom(10, 15, 20), cost }), 2),
});

type Cost = { cost: number | undefined };
type Catalog = {
  pumps: ({ flow: number; relief: number; current: number } & Cost)[];
  lines: ({ bore: number; material: string; sold: string } & Cost)[];
  regulators: ({ pressure: number } & Cost)[];
  circuits: ({ wire: number; fuse: number } & Cost)[];
};

function textOf({ pumps, lines, regulators, circuits }: Catalog): string {
  const item = (id: string, price: number | undefined, rest: string) =>
    `  - { id: ${id}, ${price === undefined ? '' : `cost: ${price}, `}${rest} }\n`;
  return [
    'format: 1\nparts:\n',
    ...pumps.map(({ flow, relief, current, cost: price }, index) =>
      item(
        `p-${index}`,
        price,
        `pump: { flow-at: [[40 psi, ${flow} L/h], [75 psi, ${Math.round(flow * 0.7)} L/h]], rated-voltage: 13.5 V, current: ${current} A, relief-pressure: ${relief} psi }`,
      ),
    ),
    ...lines.map(({ bore, material, sold, cost: price }, index) =>
      item(
        `l-${index}`,
        price,
        `sold: ${sold}, cost-per: ${sold === 'piece' ? '11 m' : '0.5 m'}, line: { inside-diameter: ${bore} mm, material: ${material}, pressure-rating: 120 psi }`,
      ),
    ),
    ...regulators.map(({ pressure, cost: price }, index) =>
      item(`r-${index}`, price, `regulator: { pressure: ${pressure} psi, style: bypass }`),
    ),
    ...circuits.map(({ wire, fuse, cost: price }, index) =>
      item(`c-${index}`, price, `circuit: { wire: ${wire} AWG, fuse: ${fuse} A, relay: true }`),
    ),
  ].join('');
}

const nameOf = ({ placings, cost: price, margin, wishes, doubts }: Option) =>
  `${placings.map(({ part }) => part.id).join(' ')}: ${price} ${margin?.toFixed(9)} ${wishes} ${doubts}`;

/** Every combination judged from the beginning, one after the other. */
function bruteFront(choosing: Choosing): { front: string[]; fitting: number; all: number } {
  const ways = product(GROUP.map((slot) => choosing.candidates(slot)));
  const empty = judged(choosing, filled(choosing, GROUP, []));
  const options = ways.flatMap((parts) => {
    const trial = judged(choosing, filled(choosing, GROUP, parts));
    if (newErrors(empty.errors, trial.errors).length > 0) return [];
    const placings = parts.map((part, index) => ({ slot: GROUP[index] as Slot, part }));
    return [optionOf(empty, trial, placings)];
  });
  return { front: bestOf(options).map(nameOf).toSorted(), fitting: options.length, all: ways.length };
}

describe('parts that act on one another', () => {
  it('have the front that trying every combination from the beginning has', { timeout: 240_000 }, async () => {
    let fitting = 0;
    let refused = 0;
    await fc.assert(
      fc.asyncProperty(catalogs, async (catalog) => {
        await setImmediate();
        const choosing = choosingFor(open, textOf(catalog));
        const brute = bruteFront(choosing);
        const choices = GROUP.map((slot) => inOneGo(sorted(choosing, slot, GROUP)));
        const { options, search } = inOneGo(combine(choosing, choices));
        expect(search).toMatchObject({ combinations: brute.all, isWhole: true });
        expect(search.tried).toBeLessThanOrEqual(brute.all);
        expect(bestOf(options).map(nameOf).toSorted()).toEqual(brute.front);
        fitting += brute.fitting;
        refused += brute.all - brute.fitting;
      }),
      { numRuns: 8, seed: 7 },
    );
    expect(fitting).toBeGreaterThan(20);
    expect(refused).toBeGreaterThan(20);
  });

  it('are looked through as far as they can be where there are too many, and it is said so', {
    timeout: 240_000,
  }, () => {
    const many = (count: number) => Array.from({ length: count }, (_, index) => index);
    const text = textOf({
      pumps: many(24).map((index) => ({ flow: 300 + index, relief: 110, current: 9, cost: 30 + index })),
      lines: many(24).map((index) => ({ bore: 7 + index / 10, material: 'ptfe', sold: 'length', cost: 21 + index })),
      regulators: many(8).map((index) => ({ pressure: 50 + index / 10, cost: 20 + index })),
      circuits: many(4).map((index) => ({ wire: 10, fuse: 15 + index, cost: 20 + index })),
    });
    const choosing = choosingFor(open, text);
    const choices = GROUP.map((slot) => inOneGo(sorted(choosing, slot, GROUP)));
    const { options, search } = inOneGo(combine(choosing, choices));
    expect(search).toMatchObject({ combinations: 24 * 24 * 24 * 8 * 4, isWhole: false });
    expect(search.tried).toBeLessThanOrEqual(1200);
    const empty = judged(choosing, filled(choosing, GROUP, []));
    const cheapest = bestOf(options)[0];
    const parts = cheapest?.placings.map(({ part }) => part) ?? [];
    expect(newErrors(empty.errors, judged(choosing, filled(choosing, GROUP, parts)).errors)).toEqual([]);
    expect(cheapest?.placings.map(({ part }) => part.id)).toEqual(['p-0', 'l-0', 'l-0', 'r-0', 'c-0']);
  });
});

describe('a part that is refused', () => {
  const catalog = readFileSync('samples/counter/shelf.parts.yaml', 'utf8');
  const sheets = ['counter-call', 'shelf-wagon'].map((name) =>
    readFileSync(`samples/counter/${name}.build.yaml`, 'utf8'),
  );

  it.each([open, ...sheets])(
    'breaks a rule, and one that is not breaks none: every part of the counter, %#',
    {
      timeout: 240_000,
    },
    (sheet) => {
      const choosing = choosingFor(sheet, catalog);
      let count = 0;
      for (const slot of slots) {
        const bench = choosing.without([slot]);
        const empty = judged(choosing, filled(choosing, [slot], []));
        for (const part of choosing.candidates(slot)) {
          const values = filled(choosing, [slot], [part]);
          const whole = judged(choosing, values);
          const errors = newErrors(empty.errors, whole.errors);
          const found = bench.attempt(values);
          expect('refusal' in found, `${part.id} for ${slot.name}`).toBe(errors.length > 0);
          if ('trial' in found)
            expect(measures(empty, whole, slot, part)).toEqual(measures(bench.empty, found.trial, slot, part));
          count++;
        }
      }
      expect(count).toBeGreaterThan(90);
    },
  );
});

describe('what would make a part fit', () => {
  it('is tried with all that stands on it, as a check from the beginning is', { timeout: 120_000 }, () => {
    const catalog = readFileSync('samples/counter/shelf.parts.yaml', 'utf8');
    const choosing = choosingFor(readFileSync('samples/counter/counter-call.build.yaml', 'utf8'), catalog);
    let count = 0;
    for (const name of ['regulator', 'pump', 'feed', 'pump-circuit']) {
      const slot = slotNamed(name) as Slot;
      const bench = choosing.without([slot]);
      for (const part of choosing.candidates(slot)) {
        const { values, errors } = bench.trial(filled(choosing, [slot], [part]));
        for (const { changes } of bench.newIn(errors).flatMap(({ repairs }) => repairs.slice(0, 2))) {
          const changed = changedValues(values, changes);
          if (!changed) continue;
          const ids = (found: Trial) => found.errors.flatMap(identities).toSorted();
          expect(ids(bench.wholeTrial(changed)), `${part.id}`).toEqual(ids(judged(choosing, changed)));
          count++;
        }
      }
    }
    expect(count).toBeGreaterThan(15);
  });
});

function measures(empty: Trial, trial: Trial, slot: Slot, part: ShelfPart) {
  const { warnings, ...option } = optionOf(empty, trial, [{ slot, part }]);
  return { ...option, warnings: warnings.toSorted() };
}

describe('a part that is replaced in a later stage', () => {
  const flows = fc.array(fc.record({ flow: fc.constantFrom(62, 110, 200), cost: fc.integer({ min: 20, max: 90 }) }), {
    minLength: 2,
    maxLength: 4,
  });
  const stroker = wagon.replace(
    /camshaft, power: 290 hp.*induction: natural/,
    'stroker, power: 400 hp, induction: natural, changes: { engine: { displacement: 6.6 L, idle: 900 rpm } }',
  );
  const slot = slotNamed('injectors') as Slot;
  /** What choosing finds among all ways to have one part or, from a stage on, another. */
  const ways = (choosing: Choosing) => {
    const parts = choosing.candidates(slot);
    const stages = choosing.build.plan.length;
    const later = Array.from({ length: stages - 1 }, (_, index) => index + 1);
    const splits = product<number | ShelfPart>([[...parts], [...parts], later]) as [ShelfPart, ShelfPart, number][];
    return { parts, splits: splits.filter(([now, then]) => now !== then) };
  };

  it('is proposed where two cost less than one for all stages, as trying every way finds', {
    timeout: 240_000,
  }, async () => {
    let split = 0;
    await fc.assert(
      fc.asyncProperty(flows, async (all) => {
        await setImmediate();
        const catalog = `format: 1\nparts:\n${all.map(({ flow, cost: price }, index) => `  - { id: i-${index}, cost: ${price}, injectors: { static-flow: ${flow} lb/h, rated-pressure: 43.5 psi, dead-time: 0.9 ms, shortest-pulse: 1.3 ms } }\n`).join('')}`;
        const choosing = choosingFor(stroker, catalog);
        const { values } = choosing.build;
        const empty = judged(choosing, filled(choosing, [slot], []));
        const fits = (tried: Values) => newErrors(empty.errors, judged(choosing, tried).errors).length === 0;
        const { parts, splits } = ways(choosing);
        const priceOf = (part: ShelfPart) => 4 * (part.cost ?? 0);
        const whole = parts.filter((part) => fits(valuesWith(values, slot, part)));
        const least = Math.min(...whole.map(priceOf));
        const expected = splits
          .filter(([now, then]) => priceOf(now) + priceOf(then) < least)
          .filter(([now, then, from]) => fits(valuesWithLater(values, slot, now, then, from)))
          .filter(([now, then]) => !whole.includes(now) && !whole.includes(then))
          .map(([now, then]) => priceOf(now) + priceOf(then));
        const { options } = inOneGo(choose(choosing, slot));
        const best = Math.min(least, ...expected);
        expect(options[0]?.cost ?? Number.POSITIVE_INFINITY).toBe(best);
        if (best < least) {
          split++;
          expect(options[0]?.placings.map(({ from }) => from)).toEqual([undefined, 1]);
        }
      }),
      { numRuns: 12, seed: 5 },
    );
    expect(split).toBeGreaterThan(0);
  });
});
