import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'electrical.voltage-regulator',
    is: 'mechanical',
    message:
      'A regulator with vibrating contacts feeds the computer spikes and a voltage that wanders: fit an electronic one.',
    repair: ['Fit an electronic voltage regulator', 'electronic'],
  },
];

export const rule: StageRule = {
  id: 'electrical/old-regulator',
  title: 'Voltage regulator with contacts',
  severity: 'warning',
  why: 'Contacts that open and close a hundred times a second make a spike each time and hold the voltage within a volt or so, with the weather. Pump, injectors and dwell follow that voltage, and a spike can reset the computer.',
  inspect:
    'Look for a tin can with a lid on the firewall or fender; on a scope or on AC volts the battery is never still.',
  remedy:
    'An electronic regulator for the same alternator, or an alternator with its own; its ground to the case of the alternator.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
