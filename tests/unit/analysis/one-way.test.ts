import { describe, expect, it } from 'vitest';
import { analyze } from '../../../server/src/analysis/analysis.ts';
import { isKnown } from '../../../server/src/analysis/figure.ts';
import { figures } from '../../../server/src/analysis/figures.ts';
import type { BuildSheet } from '../../../server/src/generated/build-sheet.ts';
import { pathText } from '../../../server/src/sheet/entry.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { valueAt } from '../../../server/src/sheet/path.ts';
import { soundText } from '../../variants/variant.ts';
import { read } from '../sheet/marked.ts';
import { moved, numbersOf } from './moves.ts';

/** Sheets of which every quantity is moved: natural, external pump, two stages with a blower, alcohol, turbo, surge tank. */
const sheets = ['foundry-six-metric', 'high-plain-roots', 'still-house-four', 'mill-lane-turbo', 'ridge-crawler'];

/** A quantity is moved by these, each way by some percent. */
const FACTORS = [0.94, 0.97, 1, 1.03, 1.06];

/** What solvers leave. */
const EXACT = 1e-6;

/** Figures that turn around when a quantity grows, and why they may. */
const TURNS: [key: RegExp, why: string][] = [
  [
    /^\d (airflow-needed|airflow-share|throttle-area-most) with site\.hottest/,
    'hot air is thinner, but at the same relative humidity it also holds more vapor in place of air the engine burns',
  ],
];

/** Figures of a sheet that rise and then fall, or fall and then rise, as one of its quantities grows. */
function turning(values: Partial<BuildSheet>): string[] {
  const places = numbersOf(values).filter((place) => typeof valueAt(values, place) === 'object');
  return places.flatMap((place) => {
    const series = FACTORS.map((factor) => numbers(moved(values, place, factor) as Partial<BuildSheet>));
    const field = place.filter((step) => typeof step === 'string').join('.');
    return [...(series[0] as Map<string, number>).keys()]
      .filter((id) => turns(series.map((one) => one.get(id) ?? Number.NaN)))
      .map((id) => `${id} with ${field} (${pathText(place)})`);
  });
}

/** Every figure of every stage. */
function numbers(values: Partial<BuildSheet>): Map<string, number> {
  return new Map(
    analyze(values, noHouse).flatMap((stage) =>
      figures.flatMap((node): [string, number][] => {
        const outcome = stage.see(node);
        return isKnown(outcome) ? [[`${stage.index} ${node.id}`, outcome.value]] : [];
      }),
    ),
  );
}

function turns(series: readonly number[]): boolean {
  const scale = Math.max(...series.map(Math.abs));
  const steps = series.slice(1).map((value, index) => value - (series[index] as number));
  return steps.some((step) => step > EXACT * scale) && steps.some((step) => step < -EXACT * scale);
}

describe('every figure goes one way as a quantity of the sheet grows', () => {
  it.each(sheets)('in %s', (name) => {
    const unexplained = turning(read(soundText(name)).values).filter(
      (key) => !TURNS.some(([known]) => known.test(key)),
    );
    expect(unexplained).toEqual([]);
  });
});
