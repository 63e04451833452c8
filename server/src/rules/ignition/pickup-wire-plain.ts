import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'ignition.pickup-wire',
    is: 'plain',
    message:
      'The wires of the pickup run plain side by side: twist them, or take shielded cable grounded at the computer alone.',
    repair: ['Take shielded cable, its shield grounded at the computer alone', 'shielded'],
  },
];

export const rule: StageRule = {
  id: 'ignition/pickup-wire-plain',
  title: 'Pickup wires neither twisted nor shielded',
  severity: 'warning',
  why: 'A magnetic pickup gives less than a volt while cranking. Between two wires that are not twisted any field nearby makes a voltage of that size, and the computer starts on a false tooth or not at all.',
  inspect: 'Open the loom at the distributor or crank sensor; the shield may be joined to ground at one end only.',
  remedy:
    'Twisted pair in a shield from pickup to computer, without a joint on the way, the shield left open at the pickup.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
