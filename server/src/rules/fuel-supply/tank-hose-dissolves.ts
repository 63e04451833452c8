import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'fuel-system.tank.inside-hose',
    is: 'injection-hose',
    message: 'The hose inside the tank is made for fuel on its inside only: take hose made to lie in fuel.',
    repair: ['Take hose made to lie in fuel', 'submersible'],
  },
];

export const rule: StageRule = {
  id: 'fuel-supply/tank-hose-dissolves',
  title: 'Hose inside the tank not made to lie in fuel',
  severity: 'error',
  why: 'The cover of ordinary injection hose is made for air. In fuel it swells and comes off in crumbs that block pump and filter, and at last the hose splits: the pump runs, and the pressure is gone.',
  inspect:
    'Read the print on the hose between pump and hanger; hose made to lie in fuel says so, and which class it is.',
  remedy:
    'Hose of the submersible class of the right size, with clamps made for injection; both are short, neither is dear.',
  source: 'SAE J30, class R10, from memory; common practice',
  cautions: ['used-tank'],
  check: (situation) => declaredFaults(situation, FAULTS),
};
