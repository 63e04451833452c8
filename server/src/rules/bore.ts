import type { Quantity } from '../sheet/quantity.ts';

const INCH = 0.0254;

/** Bores of fuel line that are sold everywhere, by the unit they are named in. Common practice. */
const USUAL_BORES = {
  in: ['1/4 in', '5/16 in', '3/8 in', '1/2 in', '5/8 in', '3/4 in', '1 in'],
  mm: ['6 mm', '8 mm', '10 mm', '12 mm', '16 mm', '19 mm', '25 mm'],
} as const;

const SIZES = { in: [1 / 4, 5 / 16, 3 / 8, 1 / 2, 5 / 8, 3 / 4, 1], mm: [6, 8, 10, 12, 16, 19, 25] } as const;

/** The next usual bores, smallest first, that are larger than the present one and at least as large as `least`, m. */
export function boresAbove(present: Quantity, least = 0): string[] {
  const unit = present.unit === 'in' ? 'in' : 'mm';
  const meters = SIZES[unit].map((size) => size * (unit === 'in' ? INCH : 1e-3));
  return USUAL_BORES[unit].filter((_, index) => {
    const bore = meters[index] as number;
    return bore > present.value * (1 + 1e-9) && bore >= least * (1 - 1e-9);
  });
}
