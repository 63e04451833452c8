import { below, type StageRule } from '../../checking/rule.ts';

/** Least height of an air cleaner or hat over the throttle body, m: a drop base. Common practice, from memory. */
const LEAST = 0.015;

export const rule: StageRule = {
  id: 'throttle-body/air-cleaner-flat',
  title: 'Air cleaner without height',
  severity: 'warning',
  why: 'No air cleaner is that flat: either none is fitted, and dust wears rings and bores within a season and a backfire has no flame trap, or the figure is missing and the hood clearance is judged by a stack that is too low.',
  inspect:
    'Measure from the top of the throttle body to the highest point of the air cleaner, its stud and nut included.',
  remedy: 'Fit an air cleaner, or write down the height of the one that is there.',
  source: 'common practice, from memory',
  check: ({ values, show }) => {
    const height = values.stack?.['air-cleaner'];
    const miss = below(height, LEAST);
    if (!height || !miss || (height.value === 0 && values.vehicle?.use === 'drag-racing')) return undefined;
    return {
      at: 'stack.air-cleaner',
      message: `No air cleaner is ${show(height)} high: none is fitted, or the height is missing.`,
      ...miss,
      repairs: [{ title: 'Take the figure out until the air cleaner is measured', remove: ['stack.air-cleaner'] }],
    };
  },
};
