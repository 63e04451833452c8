import { notNegative, positive, within } from './bounds.ts';
import { PSI } from './constants.ts';
import { brakeMeanEffectivePressure, type Range } from './demand.ts';

/** How far an engine is built for speed, which its cam tells. */
export type Build = 'mild' | 'long-cam' | 'racing';

/** Intake duration at 0.050 in lift, degrees, from which a cam is long, and a racing one. Common practice. */
const longCam = 222;
const racingCam = 255;

/** The build an intake duration, degrees at 0.050 in lift, tells of. Common practice. @throws RangeError outside 150 to 330 degrees */
export function buildOfCam(duration: number): Build {
  within(duration, 150, 330, 'The cam duration in degrees');
  if (duration >= racingCam) return 'racing';
  return duration >= longCam ? 'long-cam' : 'mild';
}

/**
 * Brake mean effective pressure, Pa, of natural engines at their peak-power speed. Above `high` a claim wants a second look,
 * below `low` something is left out of it. Common practice; 150, 180 and 210 psi are figures at the torque peak and
 * stand some 12 % higher. Heywood section 2.7 has 850 to 1050 kPa (123 to 152 psi) at the torque peak of production engines.
 */
export const naturalBmep: Readonly<Record<Build, Range>> = {
  mild: { low: 80 * PSI, usual: 140 * PSI, high: 150 * PSI },
  'long-cam': { low: 100 * PSI, usual: 165 * PSI, high: 180 * PSI },
  racing: { low: 130 * PSI, usual: 190 * PSI, high: 200 * PSI },
};

/** Share by which a boosted engine may miss its estimate either way. */
const boostedSpread = { low: 0.75, high: 1.15, source: 'common practice' } as const;

/**
 * Brake mean effective pressure, Pa, of a boosted engine at peak power: the natural build's usual figure times the pressure
 * and temperature ratio of its charge (the density ratio), less what a compressor on the crank takes (Pa, as mean
 * effective pressure). Judged from both sides: a claim far under the estimate is as wrong as one over it. Common practice.
 * @throws RangeError unless the density ratio is above zero, the drive's share not negative and something is left
 */
export function boostedBmep(build: Build, densityRatio: number, drive: number): Range {
  const { usual, high } = naturalBmep[build];
  const ratio = positive(densityRatio, 'The density ratio');
  const taken = notNegative(drive, 'The drive of the compressor');
  const estimate = positive(usual * ratio - taken, 'What the compressor leaves');
  return {
    low: boostedSpread.low * estimate,
    usual: estimate,
    high: Math.max(boostedSpread.high * estimate, high * ratio - taken),
  };
}

/** Brake mean effective pressure, Pa, at peak power where the peak-power speed is not known: 140 psi. Common practice. */
export const USUAL_BMEP = naturalBmep.mild.usual;

/** Highest peak-power speed that is assumed, rev/s: 6,500 rpm. Common practice. */
export const HIGHEST_ASSUMED_SPEED = 6500 / 60;

/**
 * Peak-power speed, rev/s, that a natural power, W, from a displacement, m3, asks for at 140 psi, at most 6,500 rpm; `capped`
 * says that more would be needed. Source: definition of mean effective pressure (Heywood eq. 2.19a) with `USUAL_BMEP`.
 * @throws RangeError unless both are above zero
 */
export function usualPeakPowerSpeed(power: number, displacement: number): { speed: number; capped: boolean } {
  const speed = brakeMeanEffectivePressure(power, displacement, 1) / USUAL_BMEP;
  return { speed: Math.min(speed, HIGHEST_ASSUMED_SPEED), capped: speed > HIGHEST_ASSUMED_SPEED };
}

/** Redline over peak-power speed where it is not known. Common practice. */
export const REDLINE_RATIO = 1.1;
