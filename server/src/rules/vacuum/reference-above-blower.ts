import { sitePressure } from '../../analysis/air.ts';
import { manifoldPressure } from '../../analysis/boost.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/reference-above-blower',
  title: 'Manifold-pressure hose above the blower',
  severity: 'error',
  why: 'Above the blower there is never more than the pressure of the air, so the computer gives fuel and timing for an engine without boost. A lean mixture with full advance under boost knocks, and knock breaks pistons.',
  inspect:
    'Follow the hose. Under load with boost on the gauge the computer must show more than the pressure of the air.',
  remedy: 'Take it from the manifold below the blower.',
  source: 'common practice',
  check: ({ values, induction, see, show }) => {
    if (values['vacuum-reference']?.port !== 'above-blower' || induction === 'natural') return undefined;
    const manifold = see(manifoldPressure);
    const range = manifold
      ? `: the computer reads at most ${show(see(sitePressure))} absolute, the engine gets ${show(manifold)}`
      : '';
    return {
      at: 'vacuum-reference.port',
      message: `Above the blower the manifold-pressure hose never sees boost${range}.`,
      related: [{ at: 'stages.induction', message: 'The blower of this stage.' }],
      repairs: [
        {
          title: 'Connect the manifold-pressure hose below the blower',
          set: { 'vacuum-reference.port': 'below-blower' },
        },
      ],
    };
  },
};
