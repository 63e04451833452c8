import type { Quantity } from '../units/quantity.ts';

const INCH = 0.0254;

/** Bores of fuel line that are sold everywhere, m, by the unit they are named in. Common practice. */
const USUAL_BORES = {
  in: new Map([
    ['1/4 in', INCH / 4],
    ['5/16 in', (5 * INCH) / 16],
    ['3/8 in', (3 * INCH) / 8],
    ['1/2 in', INCH / 2],
    ['5/8 in', (5 * INCH) / 8],
    ['3/4 in', (3 * INCH) / 4],
    ['1 in', INCH],
  ]),
  mm: new Map([6, 8, 10, 12, 16, 19, 25].map((size) => [`${size} mm`, size * 1e-3])),
};

/** The next usual bores, smallest first, that are larger than the present one and at least as large as `least`, m. */
export function boresAbove(present: Quantity, least = 0): string[] {
  const usual = USUAL_BORES[present.unit === 'in' ? 'in' : 'mm'];
  const needed = Math.max(present.value * (1 + 1e-9), least * (1 - 1e-9));
  return [...usual].filter(([, bore]) => bore > needed).map(([name]) => name);
}
