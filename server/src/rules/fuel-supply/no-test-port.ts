import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'fuel-system.routing.test-port',
    is: false,
    message: 'There is no port for a pressure gauge: fit one near the throttle body while the lines are open.',
    repair: ['Fit a port for a pressure gauge', true],
  },
];

export const rule: StageRule = {
  id: 'fuel-supply/no-test-port',
  title: 'No port for a pressure gauge',
  severity: 'information',
  why: 'The first question of every fault is the fuel pressure. Without a port a line has to be opened each time, hot and under pressure, or the question is guessed at.',
  inspect: 'Look for a capped port between pump and throttle body that takes a gauge.',
  remedy: 'A tee with a capped port near the throttle body, in reach and away from the exhaust.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
