import type { StageRule } from '../../checking/rule.ts';
import { isPumpCircuitDescribed } from '../../remedies/circuits.ts';

export const rule: StageRule = {
  id: 'electrical/impact-cutoff-missing',
  title: 'No inertia switch in the pump circuit',
  severity: 'warning',
  why: 'In a crash an electric pump goes on pumping through a torn line, and that fuel is what burns. An inertia switch costs little; some local codes and most racing rules ask for one.',
  inspect:
    'Look for a switch with a reset button in the feed of the pump relay. Many production cars carry one in the trunk or the kick panel.',
  remedy:
    'Wire an inertia switch into the coil side of the pump relay, bolted to the body the way its maker says, where it can be reached to reset it.',
  source: 'common practice',
  check: (situation) => {
    const cutoff = situation.values.electrical?.cutoff;
    const isOmitted = cutoff?.impact === undefined && isPumpCircuitDescribed(situation);
    if (cutoff?.impact !== false && !isOmitted) return undefined;
    return {
      at: cutoff ? 'electrical.cutoff.impact' : 'electrical.pump-circuit',
      message: isOmitted
        ? 'Nothing on the sheet stops the pump in a crash.'
        : 'The pump goes on running after a crash.',
      repairs: [
        { title: 'Put an inertia switch into the feed of the pump relay', set: { 'electrical.cutoff.impact': true } },
      ],
    };
  },
};
