import { finite } from './bounds.ts';

/** A curve through points, ready to be read: abscissas in rising order, ordinates, slopes at the points. */
export type Curve = { readonly x: readonly number[]; readonly y: readonly number[]; readonly slope: readonly number[] };

/**
 * Shape-preserving piecewise cubic through the points (x, y): it never overshoots them and is monotone where they are.
 * Two points give a straight line.
 *
 * Slopes inside: weighted harmonic mean of the neighbouring chords, zero at a local extreme. Slopes at the ends:
 * one-sided three-point estimate, limited to keep the shape.
 * Source: F. N. Fritsch and R. E. Carlson, SIAM J. Numer. Anal. 17 (1980) 238-246; F. N. Fritsch and J. Butland,
 * SIAM J. Sci. Stat. Comput. 5 (1984) 300-304; ends after C. Moler, Numerical Computing with MATLAB (2004), 3.6.
 * @throws RangeError with fewer than two points, unequal counts, a value that is no number, or x not rising.
 */
export function pchip(x: readonly number[], y: readonly number[]): Curve {
  checkPoints(x, y, 2);
  const last = x.length - 1;
  const width: number[] = [];
  const chord: number[] = [];
  for (let i = 0; i < last; i++) {
    width.push(at(x, i + 1) - at(x, i));
    chord.push((at(y, i + 1) - at(y, i)) / at(width, i));
  }
  const slope = new Array<number>(last + 1);
  if (last === 1) {
    slope.fill(at(chord, 0));
  } else {
    slope[0] = endSlope(at(width, 0), at(width, 1), at(chord, 0), at(chord, 1));
    slope[last] = endSlope(at(width, last - 1), at(width, last - 2), at(chord, last - 1), at(chord, last - 2));
    for (let i = 1; i < last; i++) {
      slope[i] = innerSlope(at(width, i - 1), at(width, i), at(chord, i - 1), at(chord, i));
    }
  }
  return { x: [...x], y: [...y], slope };
}

/** The curve's ordinate at `x`. @throws RangeError when `x` is no number or outside the curve. */
export function curveAt(curve: Curve, x: number): number {
  const i = interval(curve.x, x);
  const x0 = at(curve.x, i);
  const width = at(curve.x, i + 1) - x0;
  const t = (x - x0) / width;
  const y0 = at(curve.y, i);
  const y1 = at(curve.y, i + 1);
  const m0 = at(curve.slope, i) * width;
  const m1 = at(curve.slope, i + 1) * width;
  const rise = y1 - y0;
  return y0 + t * (m0 + t * (3 * rise - 2 * m0 - m1 + t * (m0 + m1 - 2 * rise)));
}

/**
 * Straight-line interpolation in the points (x, y) at `at`.
 * @throws RangeError for an empty or unsorted table, a value that is no number, or `at` outside the table.
 */
export function linearAt(x: readonly number[], y: readonly number[], where: number): number {
  checkPoints(x, y, 1);
  if (x.length === 1 && where === x[0]) return at(y, 0);
  const i = interval(x, where);
  const x0 = at(x, i);
  const y0 = at(y, i);
  return y0 + ((where - x0) / (at(x, i + 1) - x0)) * (at(y, i + 1) - y0);
}

/** As `linearAt`, but beyond the points the nearest of them holds. @throws RangeError as `linearAt` for a table */
export function linearHeldAt(x: readonly number[], y: readonly number[], where: number): number {
  checkPoints(x, y, 1);
  return linearAt(x, y, Math.min(Math.max(where, at(x, 0)), at(x, x.length - 1)));
}

function checkPoints(x: readonly number[], y: readonly number[], fewest: number): void {
  if (x.length < fewest) {
    throw new RangeError(
      `A curve needs at least ${fewest === 1 ? 'one point' : 'two points'}, but it has ${x.length}.`,
    );
  }
  if (x.length !== y.length) {
    throw new RangeError(`A curve needs as many ordinates as abscissas, but it has ${y.length} and ${x.length}.`);
  }
  for (let i = 0; i < x.length; i++) {
    finite(at(x, i), `Abscissa ${i + 1} of the curve`);
    finite(at(y, i), `Ordinate ${i + 1} of the curve`);
    if (i > 0 && at(x, i) <= at(x, i - 1)) {
      throw new RangeError(`The points of a curve must be in rising order: ${x[i]} follows ${x[i - 1]}.`);
    }
  }
}

function interval(x: readonly number[], where: number): number {
  const last = x.length - 1;
  if (!(where >= at(x, 0) && where <= at(x, last))) {
    throw new RangeError(`${where} is outside the curve, which runs from ${x[0]} to ${x[last]}.`);
  }
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (at(x, middle) <= where) low = middle;
    else high = middle;
  }
  return low;
}

function innerSlope(width0: number, width1: number, chord0: number, chord1: number): number {
  if (Math.sign(chord0) * Math.sign(chord1) <= 0) return 0;
  const weight0 = 2 * width1 + width0;
  const weight1 = width1 + 2 * width0;
  return (weight0 + weight1) / (weight0 / chord0 + weight1 / chord1);
}

function endSlope(width0: number, width1: number, chord0: number, chord1: number): number {
  const slope = ((2 * width0 + width1) * chord0 - width0 * chord1) / (width0 + width1);
  if (Math.sign(slope) !== Math.sign(chord0)) return 0;
  if (Math.sign(chord0) !== Math.sign(chord1) && Math.abs(slope) > 3 * Math.abs(chord0)) return 3 * chord0;
  return slope;
}

function at(values: readonly number[], i: number): number {
  return values[i] as number;
}
