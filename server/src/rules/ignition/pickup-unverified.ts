import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'ignition/pickup-unverified',
  title: 'Polarity of the pickup not checked',
  severity: 'information',
  why: 'Wire colors tell little about the polarity of a magnetic pickup. The wrong way round the engine starts, yet its timing drifts with speed, which is easily taken for a fault of the tune.',
  inspect: 'Meter or scope as the maker of the computer says; wire colors prove nothing.',
  remedy: 'Check, swap if need be, and write down that it was checked.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.trigger !== 'magnetic-pickup' || ignition.polarity !== 'unverified') return undefined;
    return {
      at: 'ignition.polarity',
      message:
        'Nobody has checked which wire of the magnetic pickup is positive. Check it with a meter or scope, then write it down here.',
    };
  },
};
