import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/unpaired',
  title: 'Set of throttle bodies not used as a set',
  severity: 'error',
  why: 'The computer of a set meters for all of its throttle bodies together: with one missing the engine gets part of its fuel, with one too many several computers correct against each other. The bodies of an engine are bought and wired as one set.',
  inspect: 'Count computers and harnesses: a set has one.',
  remedy: 'Mount all bodies of the set, or use a set made for as many as are mounted.',
  source: 'common practice',
  check: ({ values }) => {
    const { quantity, 'set-size': size } = values['throttle-body'] ?? {};
    const bodies = quantity ?? 1;
    if (!size || size === bodies) return undefined;
    return {
      at: quantity ? 'throttle-body.quantity' : 'throttle-body.set-size',
      message: `${bodies === 1 ? 'One throttle body is' : `${bodies} throttle bodies are`} mounted, but the computer of this set expects ${size}.`,
      related: [{ at: 'throttle-body.set-size', message: 'The set.' }],
      repairs: [
        {
          title:
            size === 1
              ? 'Mount the one throttle body of the set'
              : `Mount ${size === 2 ? 'both' : `all ${size}`} throttle bodies of the set`,
          set: { 'throttle-body.quantity': size },
        },
        {
          title: bodies === 1 ? 'Use a single throttle body with its own computer' : `Use a set made for ${bodies}`,
          set: { 'throttle-body.set-size': bodies },
        },
      ],
    };
  },
};
