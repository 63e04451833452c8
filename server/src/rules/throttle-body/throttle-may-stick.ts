import type { Draft, StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

/** Springs that must each close the throttle alone. 49 CFR 571.124 (in force since 1973), S5.1; from memory. */
const LEAST_SPRINGS = 2;

const FAULTS: readonly Declared[] = [
  {
    field: 'throttle-linkage.moves-freely',
    is: false,
    message: 'The throttle does not snap shut from every position: free it before the engine is started.',
  },
];

export const rule: StageRule = {
  id: 'throttle-body/throttle-may-stick',
  title: 'Throttle may stick open',
  severity: 'error',
  why: 'A throttle that stays open drives the car into what is ahead of it. One spring breaks one day; a cable that was cut for a carburetor, a rod that touches the air cleaner or an engine that rocks holds the plates open without warning.',
  inspect:
    'Engine off: open the throttle by the pedal, a little, half and fully, and let go. Do it again with the air cleaner on, with each spring unhooked in turn, and with a helper who pushes the engine over on its mounts.',
  remedy:
    'Two springs, each strong enough alone and hooked to places of their own; cable and rod in line with the lever, ends free to turn, nothing within a finger of the air cleaner. Local codes say what a vehicle on the road must have.',
  source: '49 CFR 571.124, from memory: two sources of closing force; the rest is common practice',
  check: (situation) => {
    const springs = situation.values['throttle-linkage']?.['return-springs'];
    const draft: Draft = {
      at: 'throttle-linkage.return-springs',
      message: `${springs === 0 ? 'No spring closes' : 'Only one spring closes'} the throttle: fit a second one that would close it alone.`,
      repairs: [
        {
          title: 'Fit springs until two would each close the throttle alone',
          set: { 'throttle-linkage.return-springs': LEAST_SPRINGS },
        },
      ],
    };
    return [...(springs !== undefined && springs < LEAST_SPRINGS ? [draft] : []), ...declaredFaults(situation, FAULTS)];
  },
};
