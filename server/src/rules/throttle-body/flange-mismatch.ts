import { hoodGap } from '../../analysis/stack.ts';
import type { Repair, StageRule } from '../../checking/rule.ts';
import { flangeFit } from '../../engineering/stack.ts';

export const rule: StageRule = {
  id: 'throttle-body/flange-mismatch',
  title: 'Throttle body does not fit the manifold',
  severity: 'error',
  why: 'Air that leaks in under the plates is never metered: the idle races or hunts, and the mixture is lean where the leak is. An adapter must seal on both sides, and its thickness belongs to the height under the hood.',
  inspect:
    'Hold the gasket of the throttle body to the manifold: bolt holes first, then whether every opening is sealed all around.',
  remedy:
    'An adapter made for the pair, flat and sealed on both sides, or a throttle body or manifold with the other flange. Check for leaks at idle afterwards.',
  source: 'common practice',
  check: ({ values }) => {
    const body = values['throttle-body']?.flange;
    const manifold = values.engine?.intake?.flange;
    if (!body || !manifold || values.stack?.adapter) return undefined;
    const { matches, note } = flangeFit(body, manifold);
    if (matches) return undefined;
    const hasSameBores = (body === 'two-bore') === (manifold === 'two-bore');
    return {
      at: 'throttle-body.flange',
      message: `The flange is ${body}, that of the manifold ${manifold}. ${note}`,
      related: [{ at: 'engine.intake.flange', message: 'The flange of the manifold.' }],
      repairs: [
        adapter(manifold, body),
        ...(hasSameBores
          ? [
              {
                title: `Choose a throttle body with a ${manifold} flange`,
                set: { 'throttle-body.flange': manifold },
              },
              { title: `Choose a ${body} manifold`, set: { 'engine.intake.flange': body } },
            ]
          : []),
      ],
    };
  },
};

function adapter(manifold: string, body: string): Repair {
  return {
    title: `Put a ${manifold} to ${body} adapter between them`,
    set: {
      'stack.adapter.from': manifold,
      'stack.adapter.to': body,
      'stack.adapter.thickness': '3/16 in',
      ...(manifold === 'spread-bore' && { 'stack.adapter.seals-spread-bore': true }),
    },
    shows: hoodGap,
  };
}
