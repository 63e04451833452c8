import type { StageRule } from '../../checking/rule.ts';
import { isTimedByComputer } from '../../remedies/computer-timing.ts';
import { dischargeBox } from '../../remedies/discharge-box.ts';

export const rule: StageRule = {
  id: 'ignition/coil-without-driver',
  title: 'Nothing switches the coil',
  severity: 'error',
  why: 'A pickup gives a small signal and cannot carry the current of a coil. Without a driver there is no spark.',
  inspect: 'Follow the negative wire of the coil to what switches it.',
  remedy: 'Fit a driver module with a heat sink, or a box, that the trigger can work.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.driver !== 'none' || isTimedByComputer(ignition)) return undefined;
    if (!ignition.trigger || ignition.trigger === 'contact-points') return undefined;
    const isSelfContained = ignition.trigger === 'inductive-distributor';
    return {
      at: 'ignition.driver',
      message: isSelfContained
        ? 'No driver is given; a distributor with coil and module built in has one of its own.'
        : 'The trigger has no driver behind it that switches the coil.',
      related: [{ at: 'ignition.trigger', message: 'What triggers the spark.' }],
      repairs: isSelfContained
        ? [
            {
              title: 'Write down the module in the distributor',
              set: { 'ignition.driver': 'distributor-module' },
              safe: true,
            },
          ]
        : [
            { title: 'Fit an inductive driver module', set: { 'ignition.driver': 'module' } },
            { title: 'Fit a capacitive-discharge box', set: dischargeBox(ignition) },
          ],
    };
  },
};
