import { regulatorSettings } from '../engineering/series.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { roundedDown, type Size } from './size.ts';

/** Settings that differ by less are the same. */
const SAME = 0.01;

/** Share over the injectors' rated pressure from which a set pressure is the cause of what follows from it. Common practice. */
const FAR_OVER = 1.2;

/**
 * Settings a regulator is put to: the injectors' rated pressure first, then the usual ones of 3 and 4 bar, in the unit of
 * the present setting. Nothing without a regulator on the sheet.
 */
export function usualSettings(values: Partial<BuildSheet>): Size[] {
  const setting = values['fuel-system']?.regulator?.pressure;
  if (!setting) return [];
  const rated = values['throttle-body']?.injectors?.['rated-pressure']?.value;
  const others = regulatorSettings.filter((other) => rated === undefined || Math.abs(other / rated - 1) > SAME);
  return [...(rated === undefined ? [] : [rated]), ...others].map((value) => ({
    value,
    text: roundedDown(value * (1 + 1e-4), setting),
  }));
}

/** The injectors' rated pressure, where the regulator is set so far over it that this is the cause of what follows. */
export function settingFarOver(values: Partial<BuildSheet>): Size | undefined {
  const setting = values['fuel-system']?.regulator?.pressure;
  const rated = values['throttle-body']?.injectors?.['rated-pressure'];
  if (!setting || !rated || setting.value <= rated.value * FAR_OVER) return undefined;
  return usualSettings(values)[0];
}
