import type { StageRule } from '../../checking/rule.ts';
import { isTimedByComputer } from '../../remedies/computer-timing.ts';

export const rule: StageRule = {
  id: 'ignition/tach-from-coil-negative',
  title: 'Tach signal from the coil behind a capacitive-discharge box',
  severity: 'error',
  why: 'The box fires hundreds of volts into the primary, several times a spark at low speed. That destroys the input of the computer, or makes it count sparks that are not there.',
  inspect: 'Follow the speed wire of the computer to its end.',
  remedy: 'Move it to the tach output of the box or to the pickup before the key is turned.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.driver !== 'capacitive-discharge' || ignition['tach-signal'] !== 'coil-negative') return undefined;
    return {
      at: 'ignition.tach-signal',
      message: 'The speed signal comes from coil negative, which a capacitive-discharge box drives.',
      related: [{ at: 'ignition.driver', message: 'The capacitive-discharge box.' }],
      repairs: [
        { title: 'Take it from the tach output of the box', set: { 'ignition.tach-signal': 'box-output' } },
        ...(isTimedByComputer(ignition) && ignition.trigger !== 'inductive-distributor'
          ? [{ title: 'Take it from the pickup that triggers the computer', set: { 'ignition.tach-signal': 'pickup' } }]
          : []),
      ],
    };
  },
};
