import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'fuel-system.tank.canister',
    is: 'open-hose',
    message: 'The vapor hose of the tank ends in the open: lead it to a canister that the engine purges.',
    repair: ['Lead the vapor to a canister that the engine purges', 'purged'],
  },
  {
    field: 'fuel-system.tank.canister',
    is: 'not-purged',
    message: 'Nothing purges the vapor canister, which fills and then spills: connect its purge hose.',
    repair: ['Connect the purge of the canister', 'purged'],
  },
];

export const rule: StageRule = {
  id: 'fuel-supply/tank-vapor',
  title: 'Vapor of the tank goes nowhere good',
  severity: 'warning',
  why: 'A return line brings warm fuel back, and the tank breathes more vapor than it did with a carburetor. An open hose lets it out beside the exhaust or into a closed garage; a canister that nothing purges is full within days and passes liquid.',
  inspect: 'Follow the vapor hose from the tank to its end; blow through the purge hose toward the engine.',
  remedy:
    'Canister and purge as the car had them, the purge to manifold vacuum through a valve or an orifice that the idle can bear. Local law may ask for all of it.',
  source: 'common practice; the local authority decides what must stay',
  cautions: ['used-tank'],
  check: (situation) => declaredFaults(situation, FAULTS),
};
