import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'fuel-system.tank.inside-wiring',
    is: 'ordinary',
    message:
      'Wire or pass-through inside the tank is not made to lie in fuel: fit a sealed pass-through and wire that are.',
    repair: ['Fit wire and a sealed pass-through made to lie in fuel', 'immersible'],
  },
];

export const rule: StageRule = {
  id: 'fuel-supply/tank-wiring-unsafe',
  title: 'Wiring inside the tank not made to lie in fuel',
  severity: 'error',
  why: 'Fuel takes the softener out of ordinary insulation until it cracks, right where there is vapor and a motor that draws ten amperes. A hole with sealant around a wire leaks vapor along the strands, also inside the insulation.',
  inspect:
    'Look at the hanger: sealed pins with insulation around them, wire and terminals that come with the pump or name fuel on their print, nothing twisted or taped.',
  remedy:
    'A hanger or a pass-through made for fuel tanks, wire to match, terminals crimped and tight, strain taken off them.',
  source: 'common practice; local codes hold',
  cautions: ['used-tank'],
  check: (situation) => declaredFaults(situation, FAULTS),
};
