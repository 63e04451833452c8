import type { BuildSheet } from '../generated/build-sheet.ts';
import type { Measures } from './front.ts';

/** How the computer of a throttle body is adjusted for each way of tuning. */
const TUNED_BY = {
  'leave-alone': ['self-learning'],
  'spark-only': ['screen', 'laptop'],
  everything: ['laptop'],
} as const;

/** The wishes of a sheet that parts for these slots meet, by their fields. */
export function wishesMet(values: Partial<BuildSheet>, cost: Measures['cost'], slots: readonly string[]): string[] {
  const { wishes = {} } = values;
  const body = values['throttle-body'];
  const pump = values['fuel-system']?.pump;
  const { tuning } = wishes;
  const ways: readonly string[] = tuning ? TUNED_BY[tuning] : [];
  const hasBody = slots.includes('throttle-body');
  const hasPump = slots.includes('pump');
  const isInside = pump?.placement !== undefined && pump.placement !== 'external';
  const met: [string, boolean][] = [
    ['tuning', hasBody && body?.adjustment !== undefined && ways.includes(body.adjustment)],
    ['computer-timing', hasBody && wishes['computer-timing'] === true && body?.['timing-output'] === true],
    ['external-pump', hasPump && wishes['external-pump'] === false && isInside],
    ['spare-pump', hasPump && wishes['spare-pump'] === true && pump?.arrangement === 'spare'],
    ['budget-now', isWithin(cost, wishes['budget-now'])],
    ['budget', isWithin(cost, wishes.budget)],
  ];
  return met.flatMap(([name, isMet]) => (isMet ? [name] : []));
}

function isWithin(cost: number | undefined, budget: number | undefined): boolean {
  return cost !== undefined && budget !== undefined && cost <= budget;
}
