import type { PlanRule } from '../../checking/rule.ts';

export const rule: PlanRule = {
  id: 'paper/note-without-date',
  title: 'A note without a date',
  severity: 'hint',
  why: 'A leak test or a measured figure is worth something only if it is known whether it was before or after the last change. A date beside the note tells.',
  inspect: 'Look at the work order for the day.',
  remedy: 'Write the date beside the note.',
  source: 'common practice',
  checkPlan: (plan) =>
    (plan[0]?.values.notes ?? []).flatMap(({ date }, index) =>
      date === undefined ? [{ at: ['notes', index, 'date'], message: 'This note has no date.' }] : [],
    ),
};
