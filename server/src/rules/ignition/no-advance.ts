import type { StageRule } from '../rule.ts';

export const rule: StageRule = {
  id: 'ignition/no-advance',
  title: 'Distributor timing with the advance locked',
  severity: 'error',
  why: 'An engine needs more advance the faster it turns; with the timing fixed it either kicks back at the starter or burns too late at speed. Late burning costs power and overheats the exhaust.',
  source: 'common practice',
  check: ({ values: { ignition } }) => {
    if (ignition?.timing !== 'distributor' || ignition.advance !== 'locked') return undefined;
    const canCompute = ignition['timing-output'] !== false && ignition.trigger !== 'inductive-distributor';
    return {
      at: 'ignition.advance',
      message: 'The distributor is to time the spark, and its advance is locked.',
      related: [{ at: 'ignition.timing', message: 'Timing by the distributor.' }],
      repairs: [
        {
          title: 'Free the mechanical and the vacuum advance',
          set: { 'ignition.advance': 'mechanical-and-vacuum' },
        },
        ...(canCompute ? [{ title: 'Let the computer time the spark', set: { 'ignition.timing': 'computer' } }] : []),
      ],
    };
  },
};
