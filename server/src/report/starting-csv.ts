import type { StartingPoint } from '../analysis/starting.ts';

const HEAD =
  'speed (rpm),manifold pressure (kPa absolute),volumetric efficiency (%),lambda,spark (deg before top dead center),note';

/** Points to begin tuning from as CSV (RFC 4180), a line a point, each with the word that it is no finished tune. */
export function startingCsv(points: readonly StartingPoint[]): string {
  const lines = points.map(({ speed, pressure, efficiency, lambda, spark, outside }) =>
    [
      Math.round(speed * 60),
      (pressure / 1e3).toFixed(1),
      (efficiency * 100).toFixed(1),
      lambda.toFixed(3),
      spark.toFixed(1),
      outside ? 'outside the torque curve; a start and no finished tune' : 'a start and no finished tune',
    ].join(','),
  );
  return `${[HEAD, ...lines].join('\r\n')}\r\n`;
}
