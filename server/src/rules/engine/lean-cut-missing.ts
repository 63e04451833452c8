import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'engine/lean-cut-missing',
  title: 'Nothing cuts when it turns lean under boost',
  severity: 'warning',
  why: 'A pump that fades or a filter that clogs shows first as a lean mixture at full load. Under boost the pistons melt within seconds, before the driver has felt anything.',
  inspect: 'Look in the settings for a limit of the mixture at load, and for what it does: a light is not a cut.',
  remedy:
    'Let the computer cut when the mixture at load is leaner than its target by a tenth for half a second; where it cannot, a fuel-pressure switch in the boost control.',
  source: 'common practice, from memory',
  check: ({ stage, induction }) => {
    if (induction === 'natural' || stage['lean-cut'] !== false) return undefined;
    return {
      at: 'stages.lean-cut',
      message:
        'Nothing cuts when the mixture turns lean under boost: set a cut in the computer, or a switch on the fuel pressure.',
      related: [{ at: 'stages.induction', message: 'The blower of this stage.' }],
      repairs: [{ title: 'Set a cut on the mixture', set: { 'stages.lean-cut': true } }],
    };
  },
};
