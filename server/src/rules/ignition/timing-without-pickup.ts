import type { StageRule } from '../../checking/rule.ts';
import { computerTimingFields, distributorTiming, isTimedByComputer } from '../../remedies/computer-timing.ts';
import { magneticPickup } from '../../remedies/pickup.ts';

export const rule: StageRule = {
  id: 'ignition/timing-without-pickup',
  title: 'Computer timing without a pickup',
  severity: 'error',
  why: 'To time a spark the computer needs the bare signal of a pickup, and the coil in its own hands. A distributor with coil and module built in fires by itself and only reports the engine speed.',
  inspect: 'Cap off: a module inside the distributor and a coil in or on the cap keep the pickup to themselves.',
  remedy: 'Fit a distributor with a bare pickup, or a toothed wheel on the crank.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (!isTimedByComputer(ignition) || ignition.trigger !== 'inductive-distributor') return undefined;
    const others = computerTimingFields(ignition);
    return {
      at: 'ignition.trigger',
      message:
        'The computer is to time the spark, but a distributor with coil and module built in keeps its pickup to itself.',
      related: [{ at: 'ignition.timing', message: 'Timing by the computer.' }],
      repairs: [
        {
          title: 'Fit a distributor with a two-wire magnetic pickup',
          set: { ...magneticPickup(ignition), ...others },
        },
        {
          title: 'Fit a toothed wheel and a sensor on the crank',
          set: { 'ignition.trigger': 'crank-sensor', ...others },
        },
        ...(ignition.driver === 'capacitive-discharge' ? [] : [distributorTiming(ignition)]),
      ],
    };
  },
};
