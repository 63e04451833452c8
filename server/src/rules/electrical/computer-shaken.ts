import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'computer.mount',
    is: 'engine',
    message:
      'The computer is bolted to the engine and shaken with it: mount it on the body, in rubber where it is rough.',
    repair: ['Mount it on the body in rubber', 'rubber'],
  },
];

export const rule: StageRule = {
  id: 'electrical/computer-shaken',
  title: 'Computer shaken by the engine',
  severity: 'warning',
  why: 'An engine shakes everything on it by many times its weight. Solder joints and pins that are not made for it break, one strand at a time.',
  inspect: 'Hand on the case with the engine running; tug at each wire where it leaves the connector.',
  remedy:
    'On the body, the harness held within a hand of the connector so that it does not swing. One built into its throttle body is made for that place.',
  source: 'common practice',
  check: (situation) =>
    situation.values.computer?.placement === 'throttle-body' ? undefined : declaredFaults(situation, FAULTS),
};
