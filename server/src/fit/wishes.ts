import type { StageAnalysis } from '../analysis/analysis.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { planCost } from '../remedies/plan-cost.ts';
import type { Measures } from './front.ts';

/** How the computer of a throttle body is adjusted for each way of tuning. */
const TUNED_BY = {
  'leave-alone': ['self-learning'],
  'spark-only': ['screen', 'laptop'],
  everything: ['laptop'],
} as const;

type Values = Partial<BuildSheet>;
type Plan = readonly StageAnalysis[];

/** What parts cost that are bought at once, and with those of later stages. */
type Costs = { now: Measures['cost']; all: Measures['cost'] };

/**
 * The wishes of a sheet that parts for these slots meet, by their fields. A budget is met where the parts and all others
 * that the sheet says a price of stay within it; `others`: the stages without these parts.
 */
export function wishesMet(values: Values, others: Plan, costs: Costs, slots: readonly string[]): string[] {
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
    ['keep-tank', hasPump && wishes['keep-tank'] === true && !slots.includes('tank')],
    ['external-pump', hasPump && wishes['external-pump'] === false && isInside],
    ['spare-pump', hasPump && wishes['spare-pump'] === true && pump?.arrangement === 'spare'],
    ...budgetsMet(wishes, others, costs),
  ];
  return met.flatMap(([name, isMet]) => (isMet ? [name] : []));
}

function budgetsMet(wishes: NonNullable<Values['wishes']>, others: Plan, costs: Costs): [string, boolean][] {
  const { 'budget-now': now, budget: all } = wishes;
  if (now === undefined && all === undefined) return [];
  const rest = planCost(others.map(({ sheet }) => sheet));
  return [
    ['budget-now', isWithin(costs.now, rest.now, now)],
    ['budget', isWithin(costs.all, rest.all, all)],
  ];
}

function isWithin(cost: number | undefined, others: number, budget: number | undefined): boolean {
  return cost !== undefined && budget !== undefined && cost + others <= budget;
}
