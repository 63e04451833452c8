import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'sensors.oxygen.bung-welding',
    is: 'connected',
    message:
      'The bung is welded with battery or computer connected: take the battery and the plugs of the computer off first, and the sensor out.',
  },
];

export const rule: StageRule = {
  id: 'vacuum/welded-with-computer',
  title: 'Welded with the computer connected',
  severity: 'error',
  why: 'Welding current takes every way back to its clamp, through the harness too. It leaves drivers and inputs half dead, and they fail weeks later.',
  inspect:
    'Before an arc is struck: battery cable off, plugs of the computer off, clamp beside the weld, fuel and vapor far away.',
  remedy:
    'Weld with the pipe off the car where you can; otherwise disconnect first. A bung that clamps on needs no welding.',
  source: 'common practice',
  cautions: ['welding'],
  check: (situation) => declaredFaults(situation, FAULTS),
};
