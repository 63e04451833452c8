import { finite } from './bounds.ts';

/**
 * A root of `f` between `low` and `high`, to within `tolerance` plus rounding: bisection made fast by secant and
 * inverse quadratic steps where these are safe.
 * Source: R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4.
 * @throws RangeError when `f` has the same sign at both ends or is not a number somewhere between them.
 */
export function findRoot(f: (x: number) => number, low: number, high: number, tolerance = 1e-12): number {
  let a = finite(low, 'The lower end of the search');
  let b = finite(high, 'The upper end of the search');
  let fa = valueAt(f, a);
  let fb = valueAt(f, b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (Math.sign(fa) === Math.sign(fb)) {
    throw new RangeError('There is no change of sign in the range searched, so no solution is known to lie there.');
  }
  let c = a;
  let fc = fa;
  let step = b - a;
  let stepBefore = step;
  for (let i = 0; i < 200; i++) {
    if (Math.sign(fb) === Math.sign(fc)) {
      c = a;
      fc = fa;
      step = b - a;
      stepBefore = step;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const smallest = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
    const half = (c - b) / 2;
    if (fb === 0 || Math.abs(half) <= smallest) return b;

    let share = 0;
    if (Math.abs(stepBefore) >= smallest && Math.abs(fa) > Math.abs(fb)) {
      share = a === c ? secantStep(half, fa, fb) : quadraticStep(half, b - a, fa, fb, fc);
      share /= half;
    }
    const limit = Math.min(3 - smallest / Math.abs(half), Math.abs(stepBefore / half));
    if (share > 0 && 2 * share < limit) {
      stepBefore = step;
      step = share * half;
    } else {
      step = half;
      stepBefore = half;
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > smallest ? step : smallest * Math.sign(half);
    fb = valueAt(f, b);
  }
  throw new RangeError('The search for a solution did not settle.');
}

function secantStep(half: number, fa: number, fb: number): number {
  const s = fb / fa;
  return (2 * half * s) / (s - 1);
}

function quadraticStep(half: number, stepDone: number, fa: number, fb: number, fc: number): number {
  const s = fb / fa;
  const q = fa / fc;
  const r = fb / fc;
  return -(s * (2 * half * q * (q - r) - stepDone * (r - 1))) / ((q - 1) * (r - 1) * (s - 1));
}

function valueAt(f: (x: number) => number, x: number): number {
  const value = f(x);
  if (!Number.isFinite(value)) throw new RangeError(`The equation has no value at ${x}.`);
  return value;
}
