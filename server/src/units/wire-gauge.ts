import { awgNumber } from '../engineering/wire.ts';

const WRITTEN = /^\s*(?:([1-9]\d*)\/0|(0+)|(\d+))[\s-]*(?:AWG|gauge|gage|ga)\s*$/i;

/** The gauge number of `12 AWG`, `4/0 AWG` or `000 ga`; 0, -1, -2, -3 stand for 1/0 to 4/0. */
export function readGauge(text: string): number | undefined {
  const match = WRITTEN.exec(text);
  if (!match) return undefined;
  const [, aught, zeros, plain] = match;
  return aught ? 1 - Number(aught) : zeros ? 1 - zeros.length : Number(plain);
}

/** Whether wire of that gauge exists. */
export function isGauge(gauge: number): boolean {
  return gauge >= -3 && gauge <= 40;
}

/** The nearest gauge number of a copper area in m2, if wire of that gauge exists. */
export function nearestGauge(area: number): number | undefined {
  const gauge = area > 0 ? Math.round(awgNumber(area)) : Number.NaN;
  return isGauge(gauge) ? gauge : undefined;
}

/** A copper area in m2 as the nearest gauge. */
export function formatGauge(area: number): string {
  const gauge = Math.round(awgNumber(area));
  return gauge < 0 ? `${1 - gauge}/0 AWG` : gauge === 0 ? '1/0 AWG' : `${gauge} AWG`;
}
