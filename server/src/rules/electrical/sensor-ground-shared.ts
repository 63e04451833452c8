import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const REPAIR = ['Lead the sensor grounds to the sensor ground of the computer', 'computer'] as const;

const FAULTS: readonly Declared[] = [
  {
    field: 'electrical.sensor-ground',
    is: 'engine',
    message:
      'The sensors are grounded at the engine: lead their ground wires to the sensor ground of the computer, and to nothing else.',
    repair: REPAIR,
  },
  {
    field: 'electrical.sensor-ground',
    is: 'chassis',
    message:
      'The sensors are grounded at the body: lead their ground wires to the sensor ground of the computer, and to nothing else.',
    repair: REPAIR,
  },
];

export const rule: StageRule = {
  id: 'electrical/sensor-ground-shared',
  title: 'Sensor grounds not apart',
  severity: 'warning',
  why: 'A sensor is read as a few volts against its ground. Where that ground carries the current of a fan or a starter too, a tenth of a volt of drop reads as a different temperature, throttle or pressure, and the mixture follows.',
  inspect:
    'Meter from the ground wire of a sensor to the sensor ground of the computer, with fan and lights on: a few millivolts, no more.',
  remedy: 'Join the ground wires of the sensors only at the computer; never bolt them to engine or body besides.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
