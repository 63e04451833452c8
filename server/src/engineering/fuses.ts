import { positive, within } from './bounds.ts';
import { linearAt } from './interpolation.ts';
import { awgArea, copperArea, type WireKind } from './wire.ts';

/** Fuse ratings, A, in rising order. Source: ISO 8820-3 blade fuse-links, types C, E and F (sizes from memory). */
export const bladeFuses: readonly number[] = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100];

/** Ratings, A, of bolt-in strip fuses above the blades. Source: ISO 8820-5 (sizes from memory). */
const stripFuses: readonly number[] = [125, 150, 175, 200, 250, 300];

/** Share of its rating that a fuse should carry continuously. */
export const fuseLoading = {
  value: 0.8,
  source: 'common practice: 125 % rule; no clause of ISO 8820 could be read',
} as const;

/**
 * Current, A, that vehicle wire of 105 degC insulation carries in an engine compartment, by gauge. Source: 18 to 10: the
 * low-voltage table for boats, ABYC E-11, read in secondary copies; thicker: the same from memory; 20 and 24: common practice,
 * from memory. Building codes exclude vehicles and are not used.
 */
const ampacityByGauge: readonly (readonly [number, number])[] = [
  [24, 4.5],
  [22, 7],
  [20, 10],
  [18, 17],
  [16, 21],
  [14, 30],
  [12, 38],
  [10, 51],
  [8, 68],
  [6, 102],
  [4, 136],
  [2, 178],
  [1, 208],
  [0, 242],
  [-1, 280],
  [-2, 327],
  [-3, 378],
];

const logAreas = ampacityByGauge.map(([gauge]) => Math.log(copperArea(awgArea(gauge), 'gauge')));
const logCurrents = ampacityByGauge.map(([, ampere]) => Math.log(ampere));

/**
 * Current, A, that vehicle wire of a size, m2 (see `copperArea`), carries in an engine compartment: `ampacityByGauge` by
 * copper area, between its sizes by equal ratios; thinner or thicker than it in proportion to the copper, at most that of 4/0.
 * @throws RangeError unless the size is above zero
 */
export function ampacity(size: number, kind: WireKind): number {
  const log = Math.log(copperArea(size, kind));
  const first = logAreas[0] as number;
  const last = logAreas.at(-1) as number;
  const thinner = Math.min(0, log - first);
  return Math.exp(thinner + linearAt(logAreas, logCurrents, Math.min(Math.max(log, first), last)));
}

/**
 * Largest fuse, A, blade or above 100 A bolt-in strip, that protects vehicle wire of a size, m2 (see `copperArea`): the largest that is at most 0.8 of
 * the wire's `ampacity`, since a blade fuse may carry a third more than its rating for minutes (ISO 8820-3, from memory).
 * It gives what harnesses commonly have: 10 A on 18 gauge, 15 on 16, 20 on 14, 30 on 12, 40 on 10. 0 when none is small enough.
 * @throws RangeError unless the size is above zero
 */
export function fuseLimit(size: number, kind: WireKind): number {
  const most = 0.8 * ampacity(size, kind);
  return [...bladeFuses, ...stripFuses].findLast((rating) => rating <= most * (1 + 1e-9)) ?? 0;
}

/**
 * Smallest fuse rating, A, whose share `loading` carries a continuous current, A; undefined when none is large enough.
 * A rating met but for rounding counts: 12 A / 0.8 takes 15 A. Source: common practice, see `fuseLoading`; ratings ISO
 * 8820-3. @throws RangeError unless the current is above zero and the loading above 0 up to 1
 */
export function fuseRating(
  current: number,
  loading: number = fuseLoading.value,
  ratings: readonly number[] = bladeFuses,
): number | undefined {
  within(positive(loading, 'The loading of a fuse'), 0, 1, 'The loading of a fuse');
  const needed = positive(current, 'The continuous current') / loading;
  return ratings.find((rating) => rating >= needed * (1 - 1e-9));
}
