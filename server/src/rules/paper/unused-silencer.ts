import type { ToldRule } from '../../checking/rule.ts';

export const rule: ToldRule = {
  id: 'paper/unused-silencer',
  title: 'An entry under "silence" silences nothing',
  severity: 'hint',
  told: true,
  why: 'An entry that is no longer needed would hide the next finding of its rule. Remove it.',
  inspect: 'See what was changed since the entry was written.',
  remedy: 'Take the entry out.',
  source: 'common practice',
};
