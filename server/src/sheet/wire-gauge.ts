/** Cross-section in m2 of an American wire gauge number; 0 is 1/0, -1 is 2/0 and so on. ASTM B258-18, section 4. */
export function wireGaugeArea(gauge: number): number {
  const diameter = 0.127e-3 * 92 ** ((36 - gauge) / 39);
  return (Math.PI / 4) * diameter ** 2;
}

/** The gauge number, not rounded, of a cross-section in m2; the inverse of wireGaugeArea. */
export function wireGauge(area: number): number {
  const diameter = Math.sqrt((4 * area) / Math.PI);
  return 36 - (39 * Math.log(diameter / 0.127e-3)) / Math.log(92);
}
