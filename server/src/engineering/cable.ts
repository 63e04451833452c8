import { positive, within } from './bounds.ts';

/** Where a lever pulls a cable: radius (m) and, at idle, its angle to the cable (degrees); the shaft turns on by `swing`. */
export type Lever = { radius: number; angle: number; swing: number };

const cosine = (degrees: number) => Math.cos((degrees * Math.PI) / 180);

/**
 * Travel (m) of a cable whose stud goes round a shaft: r (cos a - cos(a + s)), the projection of the stud's way on a cable
 * that is long beside the radius. Plane trigonometry. `share` of the swing is turned, 1 at full throttle. Throws
 * `RangeError` where the lever would go over center, so that the cable slackens again.
 */
export function cableTravel({ radius, angle, swing }: Lever, share = 1): number {
  positive(radius, 'The lever radius');
  within(angle, 0, 180, 'The lever angle in degrees');
  if (angle + swing > 180)
    throw new RangeError(
      'With this angle the lever goes over center before full throttle, and the cable slackens again.',
    );
  return radius * (cosine(angle) - cosine(angle + within(share, 0, 1, 'The share') * swing));
}
