import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'ignition/pickup-reversed',
  title: 'Pickup wires the wrong way round',
  severity: 'error',
  why: 'A magnetic pickup is read where its signal crosses zero, and only one of the two crossings is sharp. With the wires swapped the computer reads the slow one, and the timing drifts by many degrees with speed.',
  inspect:
    'Scope on the pickup: the signal must cross zero on the steep side the computer asks for. With a light, timing that wanders with speed shows the same.',
  remedy: 'Swap the two wires at the plug, then check again.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.trigger !== 'magnetic-pickup' || ignition.polarity !== 'reversed') return undefined;
    return {
      at: 'ignition.polarity',
      message: 'The two wires of the magnetic pickup are swapped.',
      repairs: [{ title: 'Swap the two wires, to be checked again', set: { 'ignition.polarity': 'unverified' } }],
    };
  },
};
