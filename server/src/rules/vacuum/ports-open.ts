import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'vacuum-reference.unused-ports',
    is: 'open',
    message: 'Ports that the carburetor used are open and let air in: cap or plug every one that nothing uses.',
    repair: ['Cap every unused port', 'capped'],
  },
];

export const rule: StageRule = {
  id: 'vacuum/ports-open',
  title: 'Unused ports open',
  severity: 'warning',
  why: 'Air through an open port passes the throttle and the idle-air valve: the idle is high and nothing brings it down, and the cylinders beside the port run lean. Old rubber caps crack within a year and do the same.',
  inspect:
    'Count the ports of manifold and throttle body against the hoses; pinch each hose in turn at idle and listen.',
  remedy: 'Threaded plugs where they fit, new caps with clamps elsewhere.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
