import { describedCircuit } from '../pump-wire.ts';
import type { StageRule } from '../rule.ts';

export const rule: StageRule = {
  id: 'electrical/impact-cutoff-missing',
  title: 'No impact switch in the pump circuit',
  severity: 'warning',
  why: 'In a crash an electric pump goes on pumping through a torn line, and that fuel is what burns. An impact switch costs little; some local rules and most racing rules ask for one.',
  source: 'common practice',
  check: (situation) => {
    const cutoff = situation.values.electrical?.cutoff;
    const isOmitted = cutoff?.impact === undefined && describedCircuit(situation) !== undefined;
    if (cutoff?.impact !== false && !isOmitted) return undefined;
    return {
      at: cutoff ? 'electrical.cutoff.impact' : 'electrical.pump-circuit',
      message: isOmitted
        ? 'Nothing on the sheet stops the pump on impact.'
        : 'The pump goes on running after an impact.',
      repairs: [
        { title: 'Put an impact switch into the feed of the pump relay', set: { 'electrical.cutoff.impact': true } },
      ],
    };
  },
};
