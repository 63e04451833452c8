import { existsSync, readdirSync, readFileSync } from 'node:fs';
import kept from './values/whole-sheets.json' with { type: 'json' };

const SHEETS = new URL('sheets/', import.meta.url);

/** A figure worked outside the code, in SI: `[value]`, or `[value, low, high]` where a tolerance moves it. */
export type OutsideFigure = readonly number[];

export type WholeSheet = {
  name: string;
  text: string;
  /** House rules that hold for it, the nearest folder's first. */
  houses: readonly string[];
  /** Figures by the name of the stage and the id of the figure. */
  stages: Readonly<Record<string, Readonly<Record<string, OutsideFigure>>>>;
};

const outside: Readonly<Record<string, WholeSheet['stages']>> = kept.sheets;

/** Every sheet of the folder with the figures worked outside the code. */
export const wholeSheets: readonly WholeSheet[] = readdirSync(SHEETS)
  .filter((file) => file.endsWith('.build.yaml'))
  .map((file) => ({
    name: file.replace('.build.yaml', ''),
    text: readFileSync(new URL(file, SHEETS), 'utf8'),
    houses: ['near', 'far']
      .map((place) => new URL(file.replace('.build.', `.${place}.`), SHEETS))
      .filter((url) => existsSync(url))
      .map((url) => readFileSync(url, 'utf8')),
    stages: outside[file] ?? {},
  }));

type Tolerance = { relative: number; absolute: number; because: string };

const USUAL: Tolerance = {
  relative: 0.005,
  absolute: 0,
  because: 'constants of the sources, some from memory, agree to a few tenths of a percent',
};

const STOCKED: Tolerance = { relative: 0, absolute: 0, because: 'a stocked size' };

/** Tolerances other than the usual one. A figure passes within either its relative or its absolute part. */
const TOLERANCES: Readonly<Record<string, Tolerance>> = {
  'injector-count': { relative: 0, absolute: 0, because: 'a count' },
  'pump-fuse-needed': STOCKED,
  'pump-fuse-limit': STOCKED,
  'lift-pump-fuse-needed': STOCKED,
  'lift-pump-fuse-limit': STOCKED,
  'fan-fuse-needed': STOCKED,
  'fan-fuse-limit': STOCKED,
  'hot-fuel-density': { relative: 0.002, absolute: 0, because: 'expansion of alcohol by another form' },
  'boiling-temperature': { relative: 0.001, absolute: 0, because: 'a third of a kelvin' },
  'suction-limit-temperature': { relative: 0.001, absolute: 0, because: 'a third of a kelvin' },
  'charge-temperature': { relative: 0.001, absolute: 0, because: 'a third of a kelvin' },
  'blower-outlet-temperature': { relative: 0.001, absolute: 0, because: 'a third of a kelvin' },
  'compression-end-temperature': { relative: 0.001, absolute: 0, because: 'half a kelvin' },
  'demand-disagreement': { relative: 0, absolute: 0.002, because: 'a small difference of two demands' },
  'lift-pump-margin': { relative: 0, absolute: 0.01, because: 'a ratio less one' },
  'pump-margin': { relative: 0, absolute: 0.01, because: 'a ratio less one' },
  'return-back-pressure': { relative: 0.015, absolute: 60, because: 'friction less head, a small difference' },
  'return-back-pressure-share': {
    relative: 0.015,
    absolute: 0.0005,
    because: 'friction less head, a small difference',
  },
  'suction-loss': { relative: 0.015, absolute: 10, because: 'friction in a short line, of a few hundred pascals' },
  'pump-inlet-pressure': { relative: 0.015, absolute: 10, because: 'friction less head, a small difference' },
  'return-flow': {
    relative: 0.015,
    absolute: 0,
    because: 'fuel at idle is 2 to 4 % of that at full load, roughly known',
  },
  'knock-index': { relative: 0.01, absolute: 0, because: 'an integral in steps of three degrees' },
  'knock-index-hottest-day': { relative: 0.01, absolute: 0, because: 'an integral in steps of three degrees' },
  'knock-limited-spark': { relative: 0, absolute: 0.25, because: 'a quarter degree of spark' },
  'knock-limited-spark-hottest-day': { relative: 0, absolute: 0.25, because: 'a quarter degree of spark' },
  'timing-full-load': { relative: 0.005, absolute: 0.25, because: 'a quarter degree of spark' },
  'charge-temperature-at-closing': { relative: 0.001, absolute: 0, because: 'a third of a kelvin' },
  'charge-temperature-at-closing-hottest-day': { relative: 0.001, absolute: 0, because: 'a third of a kelvin' },
  'suction-head': { relative: 0, absolute: 0.06, because: 'a small difference of large pressures' },
  'suction-margin': { relative: 0, absolute: 0.06, because: 'a small difference of large pressures' },
};

/** How far a figure may be from the value worked outside the code, and why so far. */
export function toleranceOf(figure: string): Tolerance {
  return TOLERANCES[figure] ?? USUAL;
}

export function agrees(figure: string, got: number, expected: number): boolean {
  const { relative, absolute } = toleranceOf(figure);
  return Math.abs(got - expected) <= Math.max(relative * Math.abs(expected), absolute) + 1e-9 * Math.abs(expected);
}
