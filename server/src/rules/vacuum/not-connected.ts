import type { StageRule } from '../rule.ts';

export const rule: StageRule = {
  id: 'vacuum/not-connected',
  title: 'No vacuum reference',
  severity: 'error',
  why: 'A speed-density computer meters fuel by manifold pressure. Left open, its sensor shows full load at idle, and the engine floods and fouls its plugs.',
  source: 'common practice',
  check: ({ values, plan }) => {
    if (values['vacuum-reference']?.port !== 'none') return undefined;
    const blower = plan.some(({ stage }) => (stage.induction ?? 'natural') !== 'natural');
    return {
      at: 'vacuum-reference.port',
      message: 'The reference is not connected, so the computer cannot see the load of the engine.',
      repairs: [
        {
          title: `Connect it to the manifold, below ${blower ? 'blower and throttle plates' : 'the throttle plates'}`,
          set: { 'vacuum-reference.port': blower ? 'below-blower' : 'manifold' },
        },
      ],
    };
  },
};
