import { coldestDay, lowestAltitude } from '../analysis/air.ts';
import { dutyColdest, pumpMarginColdest, requiredDeliveryColdest } from '../analysis/coldest-day.ts';
import type { Estimate } from '../analysis/figure.ts';
import { dutyAtPeakPower, dutyAtRedline } from '../analysis/full-load-injection.ts';
import { dutyLimit } from '../analysis/injectors.ts';
import { pumpMargin, pumpPressure, requiredDelivery } from '../analysis/supply.ts';
import { above, below, type Related, type Repair, type Situation } from '../checking/rule.ts';
import { largerPump } from './larger-pump.ts';

/** The coldest, lowest day in words, and what of it is only assumed. */
export function coldestDayInWords({ values, know, showValue }: Pick<Situation, 'values' | 'know' | 'showValue'>): {
  day: string;
  assumed: string;
} {
  const { 'lowest-altitude': lowest, coldest } = values.site ?? {};
  const [height, cold] = [know(lowestAltitude), know(coldestDay)];
  const where = height === 0 ? 'sea level' : (lowest?.text ?? showValue(height ?? 0, 'length'));
  const day = `On a day of ${coldest?.text ?? showValue(cold ?? 0, 'temperature')} at ${where}`;
  const missing = [...(lowest ? [] : ['the lowest altitude']), ...(coldest ? [] : ['the coldest day'])];
  const assumed = missing.length
    ? ` That day is assumed: the sheet does not give ${missing.join(' and ')} the vehicle is driven at.`
    : '';
  return { day, assumed };
}

/** The site, where the sheet has one, as the place that decides the day. */
export function siteRelated({ values }: Pick<Situation, 'values'>): Related[] {
  return values.site ? [{ at: 'site', message: 'Where it is driven, and in what air.' }] : [];
}

/** By how much the duty passes a share of the time on the coldest, lowest day, where it keeps its limit otherwise. */
export function coldDutyMiss({ see, know }: Pick<Situation, 'see' | 'know'>, most: number) {
  const [limit, atPeak, atRedline] = [know(dutyLimit), see(dutyAtPeakPower), see(dutyAtRedline)];
  if (limit === undefined || !(atPeak || atRedline) || above(atPeak, limit) || above(atRedline, limit))
    return undefined;
  return above(see(dutyColdest), most);
}

/** By how much the pump misses a surplus on the coldest, lowest day, where it has its reserve otherwise. */
export function coldPumpMiss({ see }: Pick<Situation, 'see'>, least: number) {
  const margin = see(pumpMargin);
  if (!margin || below(margin, 0)) return undefined;
  return below(see(pumpMarginColdest), least);
}

/** A pump with its reserve in the air of the claim and enough for the densest air. */
export function pumpForColdest(situation: Pick<Situation, 'values' | 'see'>): Repair[] {
  const { see } = situation;
  const [required, coldest, pressure] = [see(requiredDelivery), see(requiredDeliveryColdest), see(pumpPressure)];
  if (!required || !coldest || !pressure) return [];
  const delivery: Estimate = (coldest.high ?? coldest.value) > (required.high ?? required.value) ? coldest : required;
  return largerPump(situation, { delivery, pressure: pressure.value }).map((repair) => ({
    ...repair,
    shows: pumpMarginColdest,
  }));
}
