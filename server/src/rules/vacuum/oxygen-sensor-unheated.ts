import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'sensors.oxygen.powered-when-running',
    is: false,
    message:
      'The engine runs with the oxygen sensor in the exhaust and its heater dead: power it, or take it out and plug the bung.',
    repair: ['Power the heater whenever the engine runs', true],
  },
];

export const rule: StageRule = {
  id: 'vacuum/oxygen-sensor-unheated',
  title: 'Oxygen sensor unheated in a running exhaust',
  severity: 'error',
  why: 'Without its heat the element collects soot and water, and a few minutes of that ruin it. It happens when the exhaust is finished before the wiring, or when an old ignition runs the engine meanwhile.',
  inspect: 'Engine running: volts at the heater wires of the sensor, or the reading of the computer after a minute.',
  remedy: 'Plug the bung until the sensor is wired; afterward never run the engine with it unplugged.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
