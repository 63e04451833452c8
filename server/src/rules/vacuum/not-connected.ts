import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/not-connected',
  title: 'Manifold-pressure hose not connected',
  severity: 'error',
  why: 'A speed-density computer meters fuel by manifold pressure. Left open, its sensor shows full load at idle, and the engine floods and fouls its plugs.',
  inspect:
    'Look for an open nipple on the sensor or on the throttle body. At idle the computer should show well under the pressure of the air.',
  remedy:
    'Run a short hose of its own to a manifold port below the throttle plates, below the blower too where there is one.',
  source: 'common practice',
  check: ({ values, plan }) => {
    if (values['vacuum-reference']?.port !== 'none') return undefined;
    const blower = plan.some(({ stage }) => (stage.induction ?? 'natural') !== 'natural');
    return {
      at: 'vacuum-reference.port',
      message: 'The manifold-pressure hose is not connected, so the computer cannot see the load of the engine.',
      repairs: [
        {
          title: `Connect it to the manifold, below ${blower ? 'blower and throttle plates' : 'the throttle plates'}`,
          set: { 'vacuum-reference.port': blower ? 'below-blower' : 'manifold' },
        },
      ],
    };
  },
};
