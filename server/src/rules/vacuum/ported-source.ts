import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'vacuum/ported-source',
  title: 'Manifold-pressure hose on a ported source',
  severity: 'error',
  why: 'A ported source is covered at idle and shows the pressure of the air, which the computer takes for full load: it floods the engine at idle. Only the manifold shows the load at every throttle opening.',
  inspect: 'Pull the hose at warm idle and hold a gauge to the port: no vacuum there is a ported source.',
  remedy: 'Move the hose to a port below the throttle plates. The distributor may keep the ported one.',
  source: 'common practice',
  check: ({ values, plan }) => {
    if (values['vacuum-reference']?.port !== 'ported') return undefined;
    const blower = plan.some(({ stage }) => (stage.induction ?? 'natural') !== 'natural');
    return {
      at: 'vacuum-reference.port',
      message: 'The manifold-pressure hose is on a ported source, which shows no vacuum at idle.',
      repairs: [
        {
          title: `Connect it to the manifold, below ${blower ? 'blower and throttle plates' : 'the throttle plates'}`,
          set: { 'vacuum-reference.port': blower ? 'below-blower' : 'manifold' },
        },
      ],
    };
  },
};
