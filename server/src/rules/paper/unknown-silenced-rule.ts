import type { ToldRule } from '../../checking/rule.ts';

export const rule: ToldRule = {
  id: 'paper/unknown-silenced-rule',
  title: 'An entry under "silence" names a rule that does not exist',
  severity: 'hint',
  told: true,
  why: 'The finding that was looked at and accepted still shows, and its reason is missing from the report. Rule ids have the form `area/what-is-wrong` and stand beside each finding.',
  inspect: 'Compare the id with the one beside the finding.',
  remedy: 'Correct it, or take the entry out.',
  source: 'common practice',
};
