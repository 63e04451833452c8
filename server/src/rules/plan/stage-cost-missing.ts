import type { PlanRule } from '../../checking/rule.ts';
import { inStage } from '../../sheet/path.ts';

export const rule: PlanRule = {
  id: 'plan/stage-cost-missing',
  title: 'Stage with changes and no cost',
  severity: 'hint',
  why: 'The other steps say what they cost, so without this one a sum over the plan comes out too low. Give the step a `cost`: ways out of a finding are compared by it.',
  inspect: 'Add up the plan: one step is missing in the sum.',
  remedy: 'Write the cost of the step, or of its parts.',
  source: 'common practice',
  checkPlan: (plan) => {
    if (!plan.some(({ stage }) => stage.cost !== undefined)) return [];
    return plan
      .filter(({ stage }) => stage.changes && stage.cost === undefined && !hasCost(stage.changes))
      .map(({ name, index }) => ({
        at: ['stages', index, 'changes'],
        message: `Stage "${name}" changes parts and states no cost, while others do.`,
        related: plan
          .filter(({ stage }) => stage.cost !== undefined)
          .map((other) => ({ at: inStage(other.index, 'stages.cost'), message: 'A stage with its cost.' })),
      }));
  },
};

/** Whether a part among the changes has its own cost. */
function hasCost(changes: unknown): boolean {
  if (typeof changes !== 'object') return false;
  const fields = Object.entries(changes as Record<string, unknown>);
  return fields.some(([name, value]) => name === 'cost' || hasCost(value));
}
