import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FROM_BATTERY = ['Run a fused wire of its own from the battery post', 'battery'] as const;

const FAULTS: readonly Declared[] = [
  {
    field: 'electrical.computer-feed',
    is: 'starter-post',
    message:
      'The computer gets its power from the starter post, where the volts fall furthest while cranking: take it from the battery post.',
    repair: FROM_BATTERY,
  },
  {
    field: 'electrical.computer-feed',
    is: 'fuse-block',
    message:
      'The computer gets its power from the fuse block, through every joint and load of the car: take it from the battery post.',
    repair: FROM_BATTERY,
  },
  {
    field: 'electrical.computer-feed',
    is: 'ignition-switch',
    message:
      'The computer gets its constant power from the ignition switch: take it from the battery post, and only the switched wire from the key.',
    repair: FROM_BATTERY,
  },
  {
    field: 'electrical.computer-feed-shared',
    is: true,
    message: 'Something else hangs on the power or ground wire of the computer: give the computer wires of its own.',
    repair: ['Give the computer wires of its own', false],
  },
];

export const rule: StageRule = {
  id: 'electrical/computer-feed-shared',
  title: 'Computer not fed straight from the battery',
  severity: 'warning',
  why: 'The battery smooths the voltage of the car; every foot of shared wire away from it adds the dips and spikes of pump, fan and starter. The computer measures and times by its own supply: it resets while cranking, and pulses of the injectors change with the fan.',
  inspect:
    'Meter between the power and ground pins of the computer and the battery posts, with the starter turning and with pump and fan running: more than 0.2 V is lost on the way.',
  remedy:
    'Power and ground straight to the battery posts, a fuse close to the battery, nothing else on either wire, and away from the wires of the coil.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
