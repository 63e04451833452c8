import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analyze, type StageAnalysis } from '../../../server/src/analysis/analysis.ts';
import { type Figure, isKnown, type Term } from '../../../server/src/analysis/figure.ts';
import { figures } from '../../../server/src/analysis/figures.ts';
import type { BuildSheet } from '../../../server/src/generated/build-sheet.ts';
import { pathText } from '../../../server/src/sheet/entry.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { read } from '../sheet/marked.ts';
import { moved, numbersOf, type Place } from './moves.ts';
import { randomSheet } from './random-sheet.ts';
import { samples } from './sheets.ts';

type Values = Partial<BuildSheet>;

/** The figures of a stage as computed at nominal values. */
function figuresOf(stage: StageAnalysis): Map<string, Figure> {
  return new Map(
    figures.flatMap((node) => {
      const [figure] = isKnown(stage.see(node)) ? (stage.worksheet.termsOf(node) as Figure[]) : [];
      return figure ? [[node.id, figure] as const] : [];
    }),
  );
}

/** The places a figure lists, through all figures it stands on. */
function listed(known: ReadonlyMap<string, Figure>, id: string): Set<string> {
  const found = new Set<string>();
  const seen = new Set<string>();
  const walk = (term: Term) => {
    if (term.field && !term.assumed) found.add(pathText(term.field));
    if (!term.figure || seen.has(term.figure)) return;
    seen.add(term.figure);
    for (const input of known.get(term.figure)?.inputs ?? []) walk(input);
  };
  for (const input of known.get(id)?.inputs ?? []) walk(input);
  return found;
}

/** Figures of every stage by stage and id. */
type Known = readonly Map<string, Figure>[];

/** Figures that move with a place. */
function movedWith(before: Known, values: Values, place: Place, factor: number): Set<string> {
  const found = new Set<string>();
  analyze(moved(values, place, factor) as Values, noHouse).forEach((stage, index) => {
    for (const [id, { value: now }] of figuresOf(stage)) {
      const was = before[index]?.get(id)?.value;
      if (was !== undefined && Math.abs(now - was) > 1e-9 * Math.max(Math.abs(now), Math.abs(was)))
        found.add(`${index} ${id}`);
    }
  });
  return found;
}

/** Larger moves, for figures that go in steps or take the larger of two. */
const FAR = [0.5, 0.8, 1.3, 2];

/** Figures that move with a field they do not list, and, for each field a figure lists, whether any move of it counts. */
function compared(values: Values) {
  const known = analyze(values, noHouse).map(figuresOf);
  const unlisted: string[] = [];
  const counts = new Map<string, boolean>();
  const lists = new Map(
    known.flatMap((stage, index) =>
      [...stage.keys()].map((id) => [`${index} ${id}` as string, listed(stage, id)] as const),
    ),
  );
  for (const place of numbersOf(values)) {
    const name = pathText(place);
    const slightly = movedWith(known, values, place, 1.01);
    for (const figure of slightly) if (!lists.get(figure)?.has(name)) unlisted.push(`${figure} moves with ${name}`);
    const listing = [...lists].flatMap(([figure, fields]) => (fields.has(name) ? [figure] : []));
    const isStill = listing.some((figure) => !slightly.has(figure));
    const far = isStill ? FAR.map((factor) => movedWith(known, values, place, factor)) : [];
    for (const figure of listing) {
      const key = `${figure.split(' ')[1]} lists ${place.filter((step) => typeof step === 'string').join('.')}`;
      const isMoved = slightly.has(figure) || far.some((each) => each.has(figure));
      counts.set(key, (counts.get(key) ?? false) || isMoved);
    }
  }
  return { unlisted, counts };
}

/** Listed fields that no sample is moved by, and where they count. */
const ELSEWHERE: [key: RegExp, why: string][] = [
  [
    /^duty-highest lists engine\.torque-curve/,
    'the duty is highest at redline unless the curve makes more power before; analysis/torque.test.ts has one that does',
  ],
  [
    / lists fuel-system\.return\./,
    'the return line counts once its back-pressure reaches the setting of the regulator',
  ],
  [
    /^timing-full-load lists stages\.intercooler-effectiveness/,
    'starting timing stands on the knock-limited spark only where that is later',
  ],
  [/^(idle-)?rail-pressure lists /, 'the rail stands at the setting while the regulator holds it'],
  [/^filter-inlet-pressure lists fuel-system\.(pump|suction)\./, 'the same, ahead of the filter'],
  [/^pump-inlet-pressure lists /, 'the inlet follows the flow, which the regulator holds nearly the same'],
  [
    /^(highest-pressure|return-flow) lists (site|engine|fuel-system\.pump\.quantity)/,
    'the pressures with the engine off are higher',
  ],
  [
    /(velocity|feed-bore-least|pump-\w+|power-fed|suction-\w+|suction-limit-temperature) lists stages\.power/,
    'the pump gives the same while the regulator holds',
  ],
  [
    /(velocity|feed-bore-least|feed-loss|pressure|pump-delivery) lists stages\.nitrous\.power/,
    'the same for the fuel of the nitrous',
  ],
  [
    /^pump-(circuit|wire|fuse|voltage)\S* lists fuel-system\.pump\.quantity/,
    'pumps load a circuit together only where they share it',
  ],
  [/^heated-\S+ lists fuel-system\.pump\.quantity/, 'only pumps that always run heat the tank, and no sample has two'],
  [
    /^mean-effective-pressure-\w+ lists engine\.(displacement|peak-power-speed)/,
    'the power that drives a blower goes with both, and its mean effective pressure divides by both',
  ],
  [/^(low-site-pressure|sensor-pressure) lists site\.altitude/, 'the sea is lower than the site of every sample'],
  [/ lists fuel\.ethanol-share/, 'consumption grows as the air per fuel falls, and the air needed stays the same'],
  [/ lists site\.hottest/, 'the heat of the day cancels where charge and inlet are compared'],
  [/ lists stages\.boost/, 'a regulator that follows the manifold keeps the pressure across the injectors'],
  [
    / lists engine\.idle/,
    'fuel and time between pulses both go with the speed; above the all-in speed nothing changes',
  ],
];

describe('the fields a figure lists', () => {
  const counts = new Map<string, boolean>();
  const note = (more: ReadonlyMap<string, boolean>) => {
    for (const [key, isMoved] of more) counts.set(key, (counts.get(key) ?? false) || isMoved);
  };

  it.each(samples)('are all that move it by one per cent in %s', (_, text) => {
    const { unlisted, counts } = compared(read(text).values);
    note(counts);
    expect(unlisted).toEqual([]);
  });

  it('are all that move it in any sheet', () => {
    fc.assert(
      fc.property(randomSheet, (text) => {
        expect(compared(read(text).values).unlisted).toEqual([]);
      }),
      { numRuns: 4, seed: 11 },
    );
  });

  it('each move it in some sample, or are known to count only elsewhere', () => {
    const still = [...counts].filter(([, isMoved]) => !isMoved).map(([key]) => key);
    const unexplained = still.filter((key) => !ELSEWHERE.some(([pattern]) => pattern.test(key)));
    expect(unexplained).toEqual([]);
  });
});
