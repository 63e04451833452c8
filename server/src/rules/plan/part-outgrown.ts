import type { ToldRule } from '../../checking/rule.ts';

export const rule: ToldRule = {
  id: 'plan/part-outgrown',
  title: 'A part covers today and not a later stage',
  severity: 'warning',
  told: true,
  why: 'A part bought for today and too small for the next stage is paid for twice. Either buy for the later stage now, or write its replacement into that stage with its cost.',
  inspect: 'Open the stage that is named: the finding of that part there says what it needs.',
  remedy: 'Buy for the later stage now, or write the replacement into that stage with its cost.',
  source: 'common practice',
};
