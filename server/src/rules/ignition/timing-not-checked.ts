import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'first-start.timing-checked',
    is: false,
    message: 'The timing was not checked with a light: hold it fixed and check it before the car is driven.',
  },
];

export const rule: StageRule = {
  id: 'ignition/timing-not-checked',
  title: 'Timing not checked with a light',
  severity: 'error',
  why: 'The computer only knows where it believes the spark to be. A pickup wired the wrong way round, a trigger angle off by one tooth or a slipped damper ring shift it by ten degrees and more, and the first full throttle then breaks pistons.',
  inspect:
    'Engine warm, timing held fixed in the computer: the light must show the same at idle and at 3000 rpm. A spark that walks with speed means a wrong edge or polarity.',
  remedy:
    'Prove the mark of top dead center with a piston stop, hold the timing, correct the trigger angle until light and computer agree, then let the timing go.',
  source: 'common practice',
  cautions: ['knock'],
  check: (situation) => declaredFaults(situation, FAULTS),
};
