import type { BuildSheet } from '../generated/build-sheet.ts';
import type { Measures } from './front.ts';

/** How the computer of a throttle body is adjusted for each way of tuning. */
const TUNED_BY = {
  'leave-alone': ['self-learning'],
  'spark-only': ['screen', 'laptop'],
  everything: ['laptop'],
} as const;

/** The wishes of a sheet that its parts meet, by their fields; wishes that nothing is known about are left out. */
export function wishesMet(values: Partial<BuildSheet>, cost: Measures['cost'], changesTank: boolean): string[] {
  const { wishes = {} } = values;
  const body = values['throttle-body'];
  const pump = values['fuel-system']?.pump;
  const { tuning } = wishes;
  const ways: readonly string[] = tuning ? TUNED_BY[tuning] : [];
  const met: [string, boolean][] = [
    ['tuning', body?.adjustment !== undefined && ways.includes(body.adjustment)],
    ['computer-timing', wishes['computer-timing'] === true && body?.['timing-output'] === true],
    [
      'external-pump',
      wishes['external-pump'] === false && pump?.placement !== undefined && pump.placement !== 'external',
    ],
    ['spare-pump', wishes['spare-pump'] === true && pump?.arrangement === 'spare'],
    ['keep-tank', wishes['keep-tank'] === true && !changesTank],
    ['budget-now', isWithin(cost, wishes['budget-now'])],
    ['budget', isWithin(cost, wishes.budget)],
  ];
  return met.flatMap(([name, isMet]) => (isMet ? [name] : []));
}

function isWithin(cost: number | undefined, budget: number | undefined): boolean {
  return cost !== undefined && budget !== undefined && cost <= budget;
}
