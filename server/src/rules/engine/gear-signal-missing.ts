import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'transmission.gear-signal',
    is: false,
    message:
      'The computer is not told when the transmission goes into gear: wire its park and neutral switch to it where it has an input for it.',
    repair: ['Wire the park and neutral switch to the computer', true],
  },
];

export const rule: StageRule = {
  id: 'engine/gear-signal-missing',
  title: 'Computer does not know of the gear',
  severity: 'information',
  why: 'Shifted into gear, the engine has to carry the converter at once. A computer that is told opens the idle air before the speed falls; one that is not told sees a sagging idle and chases it.',
  inspect:
    'Warm idle, brakes held: shift from neutral into gear and watch how far the speed falls and how long it hunts.',
  remedy: 'Wire the park and neutral switch to the input of the computer for it, and check which way it switches.',
  source: 'common practice',
  check: (situation) => {
    const kind = situation.values.transmission?.kind;
    return kind === 'automatic' || kind === 'electronic' ? declaredFaults(situation, FAULTS) : undefined;
  },
};
