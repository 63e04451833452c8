import { hoseBores } from '../engineering/series.ts';
import type { Quantity } from '../units/quantity.ts';

const INCHES = ['1/4 in', '5/16 in', '3/8 in', '1/2 in', '5/8 in'];
const MILLIMETERS = hoseBores.metric.map((size) => `${Math.round(size * 1e3)} mm`);

/** The next bores of fuel hose that are sold, smallest first, larger than the present one and at least as large as `least`, m. */
export function boresAbove(present: Quantity, least = 0): string[] {
  const [sizes, names] = present.unit === 'in' ? [hoseBores.inch, INCHES] : [hoseBores.metric, MILLIMETERS];
  const needed = Math.max(present.value * (1 + 1e-9), least * (1 - 1e-9));
  return names.filter((_, index) => (sizes[index] ?? 0) > needed);
}
