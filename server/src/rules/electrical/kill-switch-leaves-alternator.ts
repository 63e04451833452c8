import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'electrical.kill-switch',
    is: 'battery-only',
    message:
      'The battery switch leaves the alternator on, so the engine and the fuel pump run on: wire it so that both are cut.',
    repair: ['Wire the switch so that it also cuts alternator and computer', 'battery-and-alternator'],
  },
];

export const rule: StageRule = {
  id: 'electrical/kill-switch-leaves-alternator',
  title: 'Kill switch does not stop the engine',
  severity: 'error',
  why: 'With the battery cut and the alternator still turning, engine and pump go on, in a crash as well, and the voltage jumps to tens of volts because nothing holds it: it kills the computer. A switch by the rules of racing must stop the engine.',
  inspect:
    'Outside, wheels chocked, idling with lights on: turn the switch once. If the engine goes on, do not try it again with the computer connected.',
  remedy:
    'A switch with a second pair of contacts for the field or the charge wire of the alternator and the key feed of the computer, or the charge wire led to the battery side of the switch.',
  source: 'common practice; the rules of the racing body and local codes hold',
  check: (situation) => declaredFaults(situation, FAULTS),
};
