import type { StageRule } from '../../checking/rule.ts';
import { isTimedByComputer } from '../../remedies/computer-timing.ts';

export const rule: StageRule = {
  id: 'ignition/rotor-phasing',
  title: 'Rotor phasing not checked',
  severity: 'warning',
  why: 'With the advance locked the rotor no longer follows the spark: when the computer moves the timing, the spark has to jump from where the rotor happens to be. Out of phase it jumps to the wrong terminal, misfires and burns the cap.',
  inspect:
    'Drill a window into an old cap, light on it: the rotor tip must meet its terminal at the earliest and at the latest timing.',
  remedy:
    'Turn the distributor body or the rotor until it meets in the middle, then set the timing in the computer again.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (!isTimedByComputer(ignition) || ignition.advance !== 'locked') return undefined;
    if (ignition['rotor-phasing'] === 'checked') return undefined;
    return {
      at: 'ignition.rotor-phasing',
      message:
        'The advance is locked, and nobody has checked that the rotor meets its terminal at the earliest and the latest timing. Check and set it, then write it down here.',
      related: [{ at: 'ignition.advance', message: 'Locked here.' }],
    };
  },
};
