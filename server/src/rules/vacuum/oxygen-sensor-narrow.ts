import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'sensors.oxygen.kind',
    is: 'narrow-range',
    message: 'The oxygen sensor tells only rich from lean: full load and learning want one that reads the whole range.',
    repair: ['Fit a wide-range oxygen sensor', 'wide-range'],
  },
];

export const rule: StageRule = {
  id: 'vacuum/oxygen-sensor-narrow',
  title: 'Oxygen sensor reads only rich or lean',
  severity: 'warning',
  why: 'A narrow-range sensor jumps at the chemical mixture and says nothing of how rich full load is. The computer then corrects cruise only, and where the engine can be hurt nobody sees the mixture.',
  inspect:
    'Count the wires: a wide-range sensor has five or six and a connector of its own, a narrow-range one has one to four.',
  remedy: 'Fit the wide-range sensor that the computer names; another one does not fit its circuit.',
  source: 'common practice',
  cautions: ['knock'],
  check: (situation) => declaredFaults(situation, FAULTS),
};
