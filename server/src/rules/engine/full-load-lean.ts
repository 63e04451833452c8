import type { StageRule } from '../../checking/rule.ts';
import { inductionDefaults } from '../../engineering/demand.ts';

export const rule: StageRule = {
  id: 'engine/full-load-lean',
  title: 'Lean mixture at full load',
  severity: 'warning',
  why: 'At full load the surplus of fuel cools the charge, the valves and the pistons; a lean target burns them and brings on knock. Start rich and let whoever tunes the engine lean it out with care.',
  inspect: 'Wide-range oxygen sensor at full load, not only at cruise.',
  remedy: 'Start rich and let whoever tunes the engine lean it out with care.',
  source: 'common practice, from memory: lambda at full load by induction',
  check: ({ stage, induction, show }) => {
    const { lambda } = inductionDefaults[induction];
    if (!stage.lambda || stage.lambda.value <= lambda.high) return undefined;
    return {
      at: 'stages.lambda',
      message: `A lambda of ${show(stage.lambda)} at full load is leaner than the ${lambda.low} to ${lambda.high} usual with ${induction} induction.`,
      repairs: [{ title: `Aim for ${lambda.usual}`, set: { 'stages.lambda': lambda.usual } }],
    };
  },
};
