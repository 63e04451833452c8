import type { StageRule } from '../../checking/rule.ts';
import { distributorTiming } from '../../remedies/computer-timing.ts';

export const rule: StageRule = {
  id: 'ignition/timing-without-output',
  title: 'Computer timing without a timing output',
  severity: 'error',
  why: 'Without a timing output nothing fires the coil, or the spark stays where the locked distributor has it. The engine does not start, or runs without any advance and overheats.',
  inspect: 'Look in the wiring list of the throttle body for a timing output.',
  remedy: 'Leave the timing to the distributor, or choose a computer that can do it.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.timing !== 'computer' || ignition['timing-output'] !== false) return undefined;
    return {
      at: 'ignition.timing',
      message: 'The computer is to time the spark, but it has no timing output.',
      related: [{ at: 'ignition.timing-output', message: 'No timing output.' }],
      repairs: [
        distributorTiming(ignition),
        {
          title: 'Choose a throttle body whose computer times the spark',
          set: { 'ignition.timing-output': true },
        },
      ],
    };
  },
};
