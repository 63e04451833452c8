import type { StageRule } from '../../checking/rule.ts';
import { isPumpCircuitDescribed } from '../../remedies/circuits.ts';

export const rule: StageRule = {
  id: 'electrical/stall-cutoff-missing',
  title: 'Pump runs on when the engine stops',
  severity: 'warning',
  why: 'With the key on and the engine stopped, a leak or a stuck injector goes on being fed: the engine floods, or a crashed car burns. The pump has to stop when the engine signal is lost; most computers do it through their pump output.',
  inspect:
    'Key on, engine off: a good system runs the pump for a few seconds and stops. Pull the speed signal at idle: the pump must stop with the engine.',
  remedy: "Drive the pump relay from the computer's pump output and from nothing else.",
  source: 'common practice',
  check: (situation) => {
    const cutoff = situation.values.electrical?.cutoff;
    const isOmitted = cutoff?.stall === undefined && isPumpCircuitDescribed(situation);
    if (cutoff?.stall !== false && !isOmitted) return undefined;
    return {
      at: cutoff ? 'electrical.cutoff.stall' : 'electrical.pump-circuit',
      message: isOmitted
        ? 'Nothing on the sheet stops the pump when the engine stalls.'
        : 'The pump goes on running with the key on and the engine stopped.',
      repairs: [
        { title: "Drive the pump relay from the computer's pump output", set: { 'electrical.cutoff.stall': true } },
      ],
    };
  },
};
