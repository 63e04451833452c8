import { hoodGap } from '../../analysis/stack.ts';
import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/adapter-needless',
  title: 'Adapter between flanges that match',
  severity: 'hint',
  why: 'A plate between two equal flanges costs height under the hood and adds a gasket that can leak. If it is there to raise the throttle body, it is a spacer.',
  inspect: 'Hold the gasket of the throttle body to the manifold.',
  remedy: 'Leave the plate out; to gain height, name it a spacer.',
  source: 'common practice',
  check: ({ values, show }) => {
    const adapter = values.stack?.adapter;
    const manifold = values.engine?.intake?.flange;
    const body = values['throttle-body']?.flange;
    if (!adapter || !manifold || manifold !== body) return undefined;
    if ((adapter.from ?? manifold) !== manifold || (adapter.to ?? body) !== body) return undefined;
    const { thickness } = adapter;
    return {
      at: 'stack.adapter',
      message: `Manifold and throttle body both have a ${body} flange; the adapter${thickness ? ` of ${show(thickness)}` : ''} is not needed.`,
      related: [
        { at: 'engine.intake.flange', message: 'The manifold below.' },
        { at: 'throttle-body.flange', message: 'The throttle body above.' },
      ],
      repairs: [{ title: 'Leave the adapter out', remove: ['stack.adapter'], shows: hoodGap }],
    };
  },
};
