import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'ignition.plugs',
    is: 'plain',
    message:
      'The spark plugs have no resistor and send radio noise into the computer: take resistor plugs of the same heat range.',
    repair: ['Take resistor plugs of the same heat range', 'resistor'],
  },
];

export const rule: StageRule = {
  id: 'ignition/plugs-without-resistor',
  title: 'Plugs without resistor',
  severity: 'warning',
  why: 'The resistor sits where the noise is made. Without it suppression wires alone leave enough to upset a pickup, above all with a discharge box.',
  inspect:
    'Read the number on the plug against its maker: one letter tells the resistor. Ohmmeter from the cap to the center electrode: thousands of ohms, or next to nothing.',
  remedy: 'The same plug with a resistor; heat range, reach and seat stay as they are.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
