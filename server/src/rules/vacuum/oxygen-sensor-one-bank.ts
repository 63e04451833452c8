import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'sensors.oxygen.sees',
    is: 'one-bank',
    message:
      'The oxygen sensor sees one bank, and the other one is trimmed by it unseen: compare their plugs, or put the sensor where the pipes have met.',
  },
];

export const rule: StageRule = {
  id: 'vacuum/oxygen-sensor-one-bank',
  title: 'Oxygen sensor sees one bank',
  severity: 'information',
  why: 'One sensor in one pipe of a two-pipe exhaust is usual, and good where both banks breathe alike. A leak, a weak plug or a throttle body that feeds the sides unevenly on the other bank is never seen.',
  inspect: 'Read the plugs of both banks after a steady pull, or put a second sensor in for a test.',
  remedy:
    'Put it behind the crossover where there is one; else choose the bank that runs leaner and look at the plugs of the other.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
