import { finite, notNegative, positive } from './bounds.ts';
import { PSI } from './constants.ts';
import type { Induction } from './demand.ts';

/** Said wherever starting timing is shown. */
export const TIMING_CAUTION =
  'Starting figures only, common practice for pump fuel and no substitute for tuning. Too much advance makes an engine knock, and knock breaks it. Confirm the pointer with a timing light, listen for knock, add advance in small steps under load and let someone with experience set full load and boost, on a dynamometer where you can.';

/** Timing to start tuning from: crank degrees before top dead center, speeds in rev/s, pressure in Pa. */
export type StartingTiming = {
  idle: number;
  cruise: number;
  fullLoad: number;
  /** Engine speed from which full-load advance is all in. */
  allInSpeed: number;
  /** Degrees taken out per pascal of boost. */
  retardPerBoost: number;
  /** Least advance that is left under boost. */
  leastUnderBoost: number;
};

/** Least advance, degrees, that a retard for boost leaves. Common practice, from memory. */
const LEAST_UNDER_BOOST = 10;

/**
 * Starting timing by induction: conservative figures for two-valve engines on pump fuel. Full load 32 degrees all in at
 * 3000 rpm (28 with boost to come), cruise 36, idle 14, and 1 degree out per psi of boost. Common practice, from memory.
 */
export function startingTiming(induction: Induction): StartingTiming {
  const boosted = induction !== 'natural';
  return {
    idle: 14,
    cruise: boosted ? 34 : 36,
    fullLoad: boosted ? 28 : 32,
    allInSpeed: 50,
    retardPerBoost: boosted ? 1 / PSI : 0,
    leastUnderBoost: LEAST_UNDER_BOOST,
  };
}

/**
 * Full advance (degrees before top dead center) such engines are given where nobody says it: 34 natural; 32 before boost is
 * taken out. Common practice, from memory; more than is wise to start from, and what a knock estimate must stand.
 */
export function usualFullAdvance(induction: Induction): number {
  return induction === 'natural' ? 34 : 32;
}

/**
 * Spark (degrees before top dead center) at full load with all advance in: advance less the retard for boost, which alone
 * takes out no more than to `LEAST_UNDER_BOOST`, less that for nitrous oxide. Common practice.
 */
export function fullLoadSpark(advance: number, boostRetard: number, nitrousRetard: number): number {
  const boosted = advance - notNegative(boostRetard, 'The retard for boost');
  const least = Math.min(finite(advance, 'The advance'), LEAST_UNDER_BOOST);
  return Math.max(boosted, least) - notNegative(nitrousRetard, 'The retard for nitrous oxide');
}

/** Absolute manifold pressure (Pa) at and below which cruise advance applies. Common practice, from memory. */
const CRUISE_PRESSURE = 50e3;

/**
 * Advance (crank degrees before top dead center) on a starting curve at a speed (rev/s) and an absolute manifold pressure
 * (Pa). From idle speed to the all-in speed it rises in a line from the idle figure; between cruise pressure and ambient
 * it falls in a line from cruise to full load; above ambient the boost retard is taken out, and so is any other `retard`
 * (degrees), such as for nitrous oxide. Never below `leastUnderBoost` for boost alone. Common practice.
 */
export function startingAdvance(
  timing: StartingTiming,
  at: { speed: number; idleSpeed: number; manifoldPressure: number; ambient: number; retard?: number },
): number {
  const speed = positive(at.speed, 'The engine speed');
  const idleSpeed = positive(at.idleSpeed, 'The idle speed');
  const pressure = positive(at.manifoldPressure, 'The manifold pressure');
  const ambient = positive(at.ambient, 'The ambient pressure');
  const retard = notNegative(at.retard ?? 0, 'The retard');

  const load = ambient > CRUISE_PRESSURE ? clamp((pressure - CRUISE_PRESSURE) / (ambient - CRUISE_PRESSURE)) : 1;
  const full = timing.cruise + (timing.fullLoad - timing.cruise) * load;
  const rise =
    timing.allInSpeed > idleSpeed
      ? clamp((speed - idleSpeed) / (timing.allInSpeed - idleSpeed))
      : Number(speed > idleSpeed);
  const natural = timing.idle + (full - timing.idle) * rise;
  const boosted = natural - timing.retardPerBoost * Math.max(0, pressure - ambient);
  const least = Math.min(natural, timing.leastUnderBoost);
  return Math.max(boosted, least) - retard;
}

function clamp(value: number): number {
  return Math.min(1, Math.max(0, value));
}
