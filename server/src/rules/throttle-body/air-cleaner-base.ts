import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'stack.base-clears',
    is: false,
    message:
      'The base of the air cleaner touches linkage, fittings or sensors: take another base or a spacer before the engine is started.',
  },
];

export const rule: StageRule = {
  id: 'throttle-body/air-cleaner-base',
  title: 'Air-cleaner base touches what moves or carries fuel',
  severity: 'error',
  why: 'A throttle body has fittings, sensors and an idle valve where a carburetor had none. A base that sits on one of them holds the throttle open, cracks a fuel fitting, or leaks air past the filter.',
  inspect:
    'Clay on the underside of the base, wing nut tight, throttle through its whole travel: look where the clay is thin.',
  remedy: 'A flat or raised base, a spacer ring under it if the hood has room, or a fitting that turns the line away.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
