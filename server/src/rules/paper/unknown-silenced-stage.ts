import type { ToldRule } from '../../checking/rule.ts';

export const rule: ToldRule = {
  id: 'paper/unknown-silenced-stage',
  title: 'An entry under "silence" names a stage that does not exist',
  severity: 'hint',
  told: true,
  why: 'A `silence` entry for one stage holds only where the stage is named as in `stages`. After a stage was renamed, what was accepted shows again.',
  inspect: 'Compare the name with those under `stages`.',
  remedy: 'Correct it, or take the entry out.',
  source: 'common practice',
};
