import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'throttle-linkage.full-travel',
    is: false,
    message: 'The pedal does not open the plates all the way: move the cable end or the lever hole until it does.',
  },
  {
    field: 'throttle-linkage.pedal-stop',
    is: false,
    message:
      'Nothing stops the pedal but the cable and the throttle shaft, which stretch and bend: fit a stop under it.',
    repair: ['Fit a stop under the pedal', true],
  },
];

export const rule: StageRule = {
  id: 'throttle-body/throttle-not-full-open',
  title: 'Pedal and plates do not end together',
  severity: 'warning',
  why: 'The lever of a throttle body is seldom as long as that of the carburetor. Where the pedal is on the floor first, power is missing that the injectors are paid for; where the plates are open first, the foot pulls on the cable and the shaft until one of them gives.',
  inspect: 'Engine off, a helper on the pedal: look down the bores with a lamp, and see what the pedal rests on.',
  remedy:
    'Choose the hole of the lever, or the bracket of the cable, so that the plates are open just before the pedal meets its stop.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
