import type { StageRule } from '../rule.ts';

export const rule: StageRule = {
  id: 'vacuum/individual-runners',
  title: 'Reference from a manifold with individual runners',
  severity: 'information',
  why: 'In a single runner pressure swings with every stroke of its cylinder, and one port shows only that one. A small chamber joined to every runner by equal hoses evens it out; many such engines are metered by throttle position instead.',
  source: 'common practice',
  check: ({ values }) => {
    if (values.engine?.intake?.manifold !== 'individual-runner') return undefined;
    if (values['vacuum-reference']?.port !== 'manifold') return undefined;
    return {
      at: 'vacuum-reference.port',
      message: 'The manifold has no shared plenum, so a single port shows the pulses of one cylinder.',
      related: [{ at: 'engine.intake.manifold', message: 'One runner a cylinder.' }],
    };
  },
};
