import type { ToldRule } from '../../checking/rule.ts';

export const rule: ToldRule = {
  id: 'paper/unlikely-value',
  title: 'A value far from what is usual',
  severity: 'information',
  told: true,
  why: 'A decimal point or a unit slips easily, and the value that comes of it is often still possible: nothing else speaks up, and every figure that stands on it is off by ten.',
  inspect: 'Look at the part, its papers or the car once more.',
  remedy: 'Correct the value; where it is really so, accept the finding and say why.',
  source: 'ranges that nearly all street cars and their parts keep to; common practice, from memory',
};
