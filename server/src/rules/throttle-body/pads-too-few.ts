import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/pads-too-few',
  title: 'More throttle bodies than mounting pads',
  severity: 'error',
  why: 'Each throttle body needs a pad of its own on the manifold. Without one it cannot be mounted, and the set cannot work with a body missing.',
  inspect: 'Count the pads on the manifold.',
  remedy: 'A manifold with the pads, or fewer bodies sold as one set.',
  source: 'definition',
  check: ({ values }) => {
    const pads = values.engine?.intake?.pads;
    const bodies = values['throttle-body']?.quantity;
    if (!pads || !bodies || bodies <= pads) return undefined;
    return {
      at: 'throttle-body.quantity',
      message: `${bodies} throttle bodies are planned on a manifold with ${pads === 1 ? 'one mounting pad' : `${pads} mounting pads`}.`,
      related: [{ at: 'engine.intake.pads', message: 'The pads.' }],
      excess: bodies - pads,
      repairs: [
        { title: `Use a manifold with ${bodies} pads`, set: { 'engine.intake.pads': bodies } },
        {
          title: pads === 1 ? 'Use a single throttle body' : `Use a set of ${pads} throttle bodies`,
          set: {
            'throttle-body.quantity': pads,
            ...(values['throttle-body']?.['set-size'] && { 'throttle-body.set-size': pads }),
          },
        },
      ],
    };
  },
};
