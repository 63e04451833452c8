import type { ToldRule } from '../../checking/rule.ts';

export const rule: ToldRule = {
  id: 'paper/not-computed',
  title: 'Checks that could not be made',
  severity: 'information',
  told: true,
  why: 'A figure that cannot be worked out with the values of the sheet leaves the checks that need it unmade. They found nothing because they could not look, which is not good news.',
  inspect: 'Look for the value that the reason names: most often a unit or a digit is wrong.',
  remedy: 'Correct the value, or check by hand what stands open.',
  source: 'common practice',
};
