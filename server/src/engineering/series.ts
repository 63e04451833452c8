import { positive } from './bounds.ts';
import { INCH, POUND } from './constants.ts';
import { bladeFuses } from './fuses.ts';
import { awgArea, stockedAreas, stockedGauges, type WireKind } from './wire.ts';

/** Preferred numbers of the series R20, twenty to the decade. Source: ISO 3:1973. */
const r20 = [1, 1.12, 1.25, 1.4, 1.6, 1.8, 2, 2.24, 2.5, 2.8, 3.15, 3.55, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9] as const;

/** One pound an hour, kg/s. */
const POUND_PER_HOUR = POUND / 3600;

/** One liter an hour, m3/s. */
const LITER_PER_HOUR = 1e-3 / 3600;

/**
 * R20 from `from` to `to`, both included, in a unit (its value in SI), above 32 rounded to whole units.
 * Source: ISO 3:1973. @throws RangeError unless unit and ends are above zero
 */
export function renard20(unit: number, from: number, to: number): number[] {
  positive(unit, 'The unit of the series');
  positive(from, 'The start of the series');
  const sizes: number[] = [];
  for (let decade = 10 ** Math.floor(Math.log10(from)); decade <= positive(to, 'The end of the series'); decade *= 10) {
    for (const step of r20) {
      const size = Number((step * decade).toPrecision(3));
      const shown = size > 32 ? Math.round(size) : size;
      if (shown >= from && shown <= to) sizes.push(shown * unit);
    }
  }
  return sizes;
}

/** Static flows of injectors, kg/s: injectors have no public series, so preferred numbers from 16 to 500 lb/h stand in. */
export const injectorFlows: readonly number[] = renard20(POUND_PER_HOUR, 16, 500);

/** Deliveries of pumps, m3/s: they have no public series either; preferred numbers from 40 to 1,000 L/h stand in. */
export const pumpFlows: readonly number[] = renard20(LITER_PER_HOUR, 40, 1000);

/** Inside diameters of fuel hose and tube, m, by inches and by millimeters. Common sizes of the trade. */
export const hoseBores: Readonly<Record<'inch' | 'metric', readonly number[]>> = {
  inch: [1 / 4, 5 / 16, 3 / 8, 1 / 2, 5 / 8].map((inch) => inch * INCH),
  metric: [6, 8, 10, 12].map((millimeter) => millimeter * 1e-3),
};

/** Sizes of stocked wire of a kind, m2 as a sheet reads them, from thin to thick; see `stockedGauges`, `stockedAreas`. */
export const wireSizes: Readonly<Record<WireKind, readonly number[]>> = {
  gauge: stockedGauges.map(awgArea),
  metric: stockedAreas,
};

/** Ratings of fuses, A; see `bladeFuses`. */
export const fuseRatings: readonly number[] = bladeFuses;

/** Settings of fuel-injection regulators, Pa gauge: 3 and 4 bar. Common practice: the pressures injectors are rated at. */
export const regulatorSettings: readonly number[] = [3e5, 4e5];

/** Rounding that two sizes may differ by and still be the same. */
const SAME = 1e-6;

/** Smallest of rising sizes that is at least `value`, or the same but for rounding; undefined when none is. @throws RangeError */
export function sizeAtLeast(sizes: readonly number[], value: number): number | undefined {
  const least = positive(value, 'The size') * (1 - SAME);
  return sizes.find((size) => size >= least);
}

/** Next size up from `value`; undefined when it is the largest. @throws RangeError unless the value is above zero */
export function sizeAbove(sizes: readonly number[], value: number): number | undefined {
  const over = positive(value, 'The size') * (1 + SAME);
  return sizes.find((size) => size > over);
}

/** Next size down from `value`; undefined when it is the smallest. @throws RangeError unless the value is above zero */
export function sizeBelow(sizes: readonly number[], value: number): number | undefined {
  const under = positive(value, 'The size') * (1 - SAME);
  return sizes.findLast((size) => size < under);
}
