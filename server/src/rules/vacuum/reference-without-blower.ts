import type { PlanRule } from '../../checking/rule.ts';

export const rule: PlanRule = {
  id: 'vacuum/reference-without-blower',
  title: 'Manifold-pressure hose at a blower the plan does not have',
  severity: 'information',
  why: 'Whoever connects the hose will look for a blower, not find one, and guess at a port. A wrong guess, such as a ported one, gives the computer no vacuum at idle.',
  inspect: 'See which port the hose is on.',
  remedy: 'Name the port by what is there: the manifold, below the throttle plates.',
  source: 'common practice',
  checkPlan: (plan) => {
    const port = plan[0]?.values['vacuum-reference']?.port;
    if (port !== 'below-blower' && port !== 'above-blower') return undefined;
    if (!plan.some(({ stage }) => stage.induction) || plan.some(({ induction }) => induction !== 'natural'))
      return undefined;
    return {
      at: 'vacuum-reference.port',
      message: `The manifold-pressure hose is said to be ${port === 'below-blower' ? 'below' : 'above'} a blower, but no stage has one.`,
      repairs: [
        {
          title: 'Connect it to the manifold, below the throttle plates',
          set: { 'vacuum-reference.port': 'manifold' },
        },
      ],
    };
  },
};
