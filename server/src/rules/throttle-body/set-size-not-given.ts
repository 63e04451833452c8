import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/set-size-not-given',
  title: 'Several throttle bodies, not said to be one set',
  severity: 'information',
  why: 'Two throttle bodies sold singly have two computers that correct against each other; a pair is one set with one computer. Ask before buying the second.',
  inspect: 'One computer and one harness for all bodies, or a computer in each?',
  remedy: 'Buy the bodies of one engine as one set, and write down how many belong to it.',
  source: 'common practice',
  check: ({ values }) => {
    const { quantity = 1, 'set-size': size, 'computer-injectors': driven } = values['throttle-body'] ?? {};
    if (quantity < 2 || size || driven) return undefined;
    return {
      at: 'throttle-body.quantity',
      message: `${quantity} throttle bodies are mounted, but nothing says that they and their computer are one set.`,
      repairs: [{ title: `Use a set made for ${quantity}`, set: { 'throttle-body.set-size': quantity } }],
    };
  },
};
