import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'ignition/no-advance',
  title: 'Distributor timing with the advance locked',
  severity: 'error',
  why: 'An engine wants more advance the faster it turns. With the timing locked it kicks back at the starter or burns too late at speed, which costs power and overheats the exhaust. A locked distributor is common at the drag strip, but not on the road.',
  inspect: 'Timing light, rev the engine: the mark must move.',
  remedy: 'Free the weights and the vacuum canister, or let the computer time the spark.',
  source: 'common practice',
  check: ({ values: { ignition, vehicle } }) => {
    if (vehicle?.use === 'drag-racing' || ignition?.timing !== 'distributor' || ignition.advance !== 'locked')
      return undefined;
    const canCompute = ignition['timing-output'] !== false && ignition.trigger !== 'inductive-distributor';
    return {
      at: 'ignition.advance',
      message: 'The distributor is to time the spark, but its advance is locked.',
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
