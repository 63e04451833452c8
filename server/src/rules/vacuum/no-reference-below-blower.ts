import type { StageRule } from '../../checking/rule.ts';
import { fromStageOn } from '../../remedies/from-stage-on.ts';

export const rule: StageRule = {
  id: 'vacuum/no-reference-below-blower',
  title: 'Manifold-pressure hose not said to be below the blower',
  severity: 'warning',
  why: 'With the throttle body ahead of the blower, a port below the throttle plates can still be above the blower, where boost never shows. The computer must read what the engine gets, or it runs lean under boost and knocks.',
  inspect: 'Follow the hose of the pressure sensor to its port. Between throttle plates and blower is the wrong side.',
  remedy: 'Take it from the manifold below the blower.',
  source: 'common practice',
  check: (situation) => {
    const { values, path, induction } = situation;
    if (values['vacuum-reference']?.port !== 'manifold' || path !== 'draw-through') return undefined;
    const blower = induction === 'turbo' ? 'turbocharger' : `${induction} blower`;
    return {
      at: 'vacuum-reference.port',
      message: `The throttle body is ahead of the ${blower}, so "manifold" may mean either side of it. The manifold-pressure hose must be below.`,
      related: [{ at: 'stages.induction', message: 'The blower of this stage.' }],
      repairs: [
        fromStageOn(situation, 'Connect the manifold-pressure hose below the blower', {
          'vacuum-reference.port': 'below-blower',
        }),
      ],
    };
  },
};
