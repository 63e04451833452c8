import { finite } from './bounds.ts';

/**
 * Share of its scale that a fuel gauge shows for a sender: (R - R_empty) / (R_full - R_empty), resistances in ohm. Linear
 * between the ends of the gauge, which real gauges are nearly. @throws RangeError for a gauge with both ends the same
 */
export function gaugeReading(sender: number, gauge: { empty: number; full: number }): number {
  const span = finite(gauge.full, 'The gauge at full') - finite(gauge.empty, 'The gauge at empty');
  if (span === 0) throw new RangeError('The gauge stands at empty and at full with the same resistance.');
  return (finite(sender, 'The sender') - gauge.empty) / span;
}
