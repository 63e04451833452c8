import type { PlanRule } from '../../checking/rule.ts';
import { missingSections } from '../../remedies/main-sections.ts';

export const rule: PlanRule = {
  id: 'paper/no-title',
  title: 'The sheet has no title',
  severity: 'hint',
  why: 'Reports, comparisons and lists of sheets show the title. Without one, two builds in the shop are told apart by file name only.',
  inspect: 'See how the shop names its jobs.',
  remedy: 'Write a title.',
  source: 'common practice',
  checkPlan: (plan) => {
    const isComplete = missingSections(plan).length === 0;
    if (!isComplete || plan[0]?.values.title !== undefined) return undefined;
    return { at: 'title', message: 'The sheet is complete except for its title.' };
  },
};
