import type { StageRule } from '../../checking/rule.ts';

/** Pads a tunnel ram or the case of a roots blower usually has. Common practice. */
const USUAL_PADS = 2;

export const rule: StageRule = {
  id: 'throttle-body/pads-unused',
  title: 'Mounting pad without a throttle body',
  severity: 'warning',
  why: 'A pad left open is a hole into the manifold, and one with a plate over it leaves the cylinders beneath with less air and fuel than the others. A tunnel ram or a blower with two pads is made for two.',
  inspect: 'See what covers the second pad.',
  remedy: 'Mount the set the manifold is made for, or use a top with one pad in the middle.',
  source: 'common practice',
  check: ({ values }) => {
    const intake = values.engine?.intake;
    const body = values['throttle-body'];
    if (!body) return undefined;
    const isMadeForTwo = intake?.manifold === 'tunnel-ram' || intake?.manifold === 'roots-plenum';
    const pads = intake?.pads ?? (isMadeForTwo && body.quantity ? USUAL_PADS : 1);
    const bodies = body.quantity ?? 1;
    if (bodies >= pads) return undefined;
    const each = body.injectors?.quantity;
    return {
      at: intake?.pads ? 'engine.intake.pads' : 'engine.intake.manifold',
      message: `The manifold ${intake?.pads ? 'has' : 'usually has'} ${pads} mounting pads, but ${bodies === 1 ? 'one throttle body is' : `${bodies} throttle bodies are`} planned.`,
      related: [{ at: 'throttle-body.quantity', message: 'The throttle bodies.' }],
      repairs: [
        {
          title: `Mount ${pads} throttle bodies, as one set`,
          set: {
            'throttle-body.quantity': pads,
            ...(body['set-size'] !== pads && { 'throttle-body.set-size': pads }),
            ...(body['computer-injectors'] && each ? { 'throttle-body.computer-injectors': pads * each } : {}),
          },
        },
        {
          title: `Use a manifold or top plate with ${bodies === 1 ? 'one pad' : `${bodies} pads`}`,
          set: { 'engine.intake.pads': bodies },
        },
      ],
    };
  },
};
