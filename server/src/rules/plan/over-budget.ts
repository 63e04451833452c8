import type { Draft, PlanRule } from '../../checking/rule.ts';
import { planCost } from '../../remedies/plan-cost.ts';

export const rule: PlanRule = {
  id: 'plan/over-budget',
  title: 'Plan costs more than the budget',
  severity: 'warning',
  why: 'The customer named what may be spent, for the first stage or for the whole plan, and the prices of the parts, with what a stage says it costs beside them, come to more. Parts without a price are not counted, so that the true sum is higher still.',
  inspect: 'Add up the prices of the parts and what each stage costs beside them, for the first stage and for all.',
  remedy: 'Look for cheaper parts that do it, move parts into a later stage, or ask whether more may be spent.',
  source: 'definition of a sum',
  checkPlan: (plan) => {
    const wishes = plan[0]?.values.wishes;
    const [now, all] = [wishes?.['budget-now'], wishes?.budget];
    if (now === undefined && all === undefined) return [];
    const cost = planCost(plan);
    return [
      ...over('wishes.budget-now', 'first stage', cost.now, now),
      ...over('wishes.budget', 'whole plan', cost.all, all),
    ];
  },
};

/** Half the least amount that is told, so that sums of decimal prices do not pass a budget they reach. */
const CENT = 0.005;

function over(
  at: 'wishes.budget-now' | 'wishes.budget',
  what: string,
  cost: number,
  budget: number | undefined,
): Draft[] {
  if (budget === undefined || cost < budget + CENT) return [];
  const more = money(cost - budget);
  return [{ at, message: `The ${what} costs at least ${money(cost)}, ${more} more than the budget.` }];
}

function money(amount: number): string {
  return amount.toFixed(2);
}
