import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'electrical.engine-strap',
    is: false,
    message:
      'No ground strap joins engine and body, so their currents go through cables, bearings and sensor wires: fit one.',
    repair: ['Fit a braided strap from engine to body', true],
  },
  {
    field: 'electrical.body-strap',
    is: false,
    message: 'No ground cable joins the battery and the body: fit one.',
    repair: ['Fit a cable from the negative post to the body', true],
  },
];

export const rule: StageRule = {
  id: 'electrical/ground-straps-missing',
  title: 'Ground straps missing',
  severity: 'warning',
  why: 'Engine, body and battery must be one ground. Where a strap is missing the return current of starter, alternator and fan looks for another way: through the throttle cable, the wheel bearings, and the ground wires of sensors, whose readings move with it.',
  inspect:
    'Meter on volts: negative post to engine block and negative post to body, starter turning, then lights and fan on. More than 0.2 V on the way to the block or 0.1 V to the body is worth a strap.',
  remedy:
    'One strap engine to body, one cable battery to body, beside the cable from battery to engine; paint off under each lug.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
