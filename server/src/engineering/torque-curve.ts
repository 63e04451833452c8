import { positive } from './bounds.ts';
import { torqueOfPower } from './demand.ts';
import { type Curve, curveAt, pchip } from './interpolation.ts';

/** Torque peak of the usual curve: its speed over peak-power speed, its torque over that at peak power. Common practice. */
export const torquePeak = { speed: 0.65, torque: 1.12 } as const;

/** Torque of the usual curve at no speed at all, over that of its peak, toward which the low end falls. Common practice. */
const LOW_END = 0.65;

/** Speeds over peak-power speed between which the usual curve is meant. */
const range = { from: 0.2, to: 1.15 } as const;

/** Full-load torque, N m; `outside`: the speed is beyond what the curve is meant for. */
export type TorqueAt = { readonly torque: number; readonly outside: boolean };

/** A full-load torque curve: of measured points, or the usual one by peak power, W, and its speed, rev/s. */
export type TorqueCurve = { readonly points: Curve } | { readonly power: number; readonly peakPowerSpeed: number };

/**
 * Curve through measured torques, N m, at speeds, rev/s, in rising order; see `pchip`.
 * @throws RangeError with fewer than two points, speeds not rising, or a torque not above zero
 */
export function torqueCurveOf(points: readonly { speed: number; torque: number }[]): TorqueCurve {
  for (const [i, { speed, torque }] of points.entries()) {
    positive(speed, 'A speed of the torque curve');
    positive(torque, 'A torque of the torque curve');
    if (speed <= (points[i - 1]?.speed ?? 0)) throw new RangeError('The speeds of the torque curve must rise.');
  }
  return {
    points: pchip(
      points.map(({ speed }) => speed),
      points.map(({ torque }) => torque),
    ),
  };
}

/**
 * Full-load torque, N m, at a speed, rev/s. Measured points: between them by a shape-preserving cubic, beyond them held.
 *
 * The usual curve, common practice: torque peaks at 0.65 of the peak-power speed with 1.12 times the torque there; from
 * there on a cubic with slope 0 at the torque peak and -T/N at peak power, so that power peaks exactly there. Below the
 * torque peak a parabola with the same slope 0 falls to 0.65 of the peak at no speed. Never below zero.
 * @throws RangeError unless speed, power and peak-power speed are above zero
 */
export function torqueAt(curve: TorqueCurve, speed: number): TorqueAt {
  positive(speed, 'The engine speed');
  if ('points' in curve) {
    const { x } = curve.points;
    const held = Math.min(Math.max(speed, x[0] as number), x.at(-1) as number);
    return { torque: curveAt(curve.points, held), outside: held !== speed };
  }
  const share = speed / positive(curve.peakPowerSpeed, 'The peak-power speed');
  return {
    torque: torqueOfPower(curve.power, curve.peakPowerSpeed) * Math.max(0, usualShape(share)),
    outside: share < range.from || share > range.to,
  };
}

/** Torque over that at peak power, at a speed over peak-power speed. */
function usualShape(share: number): number {
  const { speed, torque } = torquePeak;
  if (share < speed) return torque * (1 - (1 - LOW_END) * (1 - share / speed) ** 2);
  const width = 1 - speed;
  const t = (share - speed) / width;
  const rise = 1 - torque;
  const endSlope = -width;
  return torque + t ** 2 * (3 * rise - endSlope + t * (endSlope - 2 * rise));
}
