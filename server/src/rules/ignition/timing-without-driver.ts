import type { StageRule } from '../../checking/rule.ts';
import { distributorTiming, isTimedByComputer } from '../../remedies/computer-timing.ts';
import { dischargeBox } from '../../remedies/discharge-box.ts';

export const rule: StageRule = {
  id: 'ignition/timing-without-driver',
  title: 'Computer timing without a coil driver',
  severity: 'error',
  why: 'The timing output of the computer is a small signal; something has to switch the coil by it. The module of a distributor switches by its own pickup and takes no orders.',
  inspect: 'Follow the timing output of the computer: it must end at something that switches the coil.',
  remedy: 'Fit a driver module or a box that takes the signal of the computer.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (!isTimedByComputer(ignition) || ignition.trigger === 'inductive-distributor') return undefined;
    const { driver } = ignition;
    if (driver !== 'none' && driver !== 'distributor-module') return undefined;
    return {
      at: 'ignition.driver',
      message:
        driver === 'none'
          ? 'The computer is to time the spark, but nothing switches the coil for it.'
          : 'The computer is to time the spark, but the module in the distributor does not listen to it.',
      related: [{ at: 'ignition.timing', message: 'Timing by the computer.' }],
      repairs: [
        { title: 'Fit an inductive driver module', set: { 'ignition.driver': 'module' } },
        {
          title: 'Fit a capacitive-discharge box with its coil',
          set: {
            ...dischargeBox(ignition),
            ...(ignition.coil ? { 'ignition.coil.made-for': 'capacitive-discharge' } : {}),
          },
        },
        ...(driver === 'none' ? [] : [distributorTiming(ignition)]),
      ],
    };
  },
};
