import type { StageRule } from '../../checking/rule.ts';
import { isTimedByComputer } from '../../remedies/computer-timing.ts';
import { magneticPickup } from '../../remedies/pickup.ts';

export const rule: StageRule = {
  id: 'ignition/cdi-without-trigger',
  title: 'Capacitive-discharge box without a trigger that fits',
  severity: 'error',
  why: 'A box fires once for each pulse it gets. From a module that switches a coil, or from every tooth of a crank wheel, it gets the wrong pulses, and fires at the wrong time or not at all.',
  inspect: 'See what is on the trigger input of the box: a bare pickup, a points wire, or the output of a module.',
  remedy: 'Give the box the pickup or the output of the computer that its maker names, one pulse for each spark.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.driver !== 'capacitive-discharge' || isTimedByComputer(ignition)) return undefined;
    const { trigger, timing } = ignition;
    const related = [{ at: 'ignition.driver' as const, message: 'The capacitive-discharge box.' }];
    if (trigger === 'inductive-distributor') {
      return {
        at: 'ignition.trigger',
        message: 'The box needs the bare pickup, but the distributor hides its own behind its module.',
        related,
        repairs: [
          {
            title: 'Connect the pickup of the distributor to the box, without the module',
            set: magneticPickup(ignition),
          },
          {
            title: 'Leave the box out, and let the module drive a coil made for it',
            set: {
              'ignition.driver': 'distributor-module',
              ...(ignition.coil?.['made-for'] ? { 'ignition.coil.made-for': 'inductive' } : {}),
            },
          },
        ],
      };
    }
    if (trigger !== 'crank-sensor' || timing !== 'distributor') return undefined;
    return {
      at: 'ignition.trigger',
      message:
        'The toothed wheel gives many pulses a turn, and without the computer between them the box would fire at each.',
      related,
      repairs: [
        {
          title: 'Trigger the box by a magnetic pickup in the distributor',
          set: magneticPickup(ignition),
        },
        ...(ignition['timing-output'] === false
          ? []
          : [
              {
                title: 'Lock the advance, and let the computer trigger the box',
                set: { 'ignition.timing': 'computer', 'ignition.advance': 'locked' },
              },
            ]),
      ],
    };
  },
};
