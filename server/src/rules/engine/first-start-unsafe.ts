import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'first-start.ventilated',
    is: false,
    message:
      'The engine is to run in a closed room: move the car outside or lead the exhaust out before it is started.',
  },
  {
    field: 'first-start.rotating-parts-clear',
    is: false,
    message: 'Belts, fan and throttle are not cleared: take tools, hoses and wires out of their way before cranking.',
  },
];

export const rule: StageRule = {
  id: 'engine/first-start-unsafe',
  title: 'First start in a closed room, or with things in the way',
  severity: 'error',
  why: 'A rich first idle fills a closed shop with carbon monoxide in minutes, and nobody smells it. An engine that was worked on for weeks has tools, hoses and sleeves near its fan, and a throttle that may open by itself when it fires.',
  inspect: 'Walk around the engine with a lamp, turn it over by hand once, and see where the exhaust ends.',
  remedy:
    'Outside, or with the exhaust in a hose that leads out; nobody in front of the fan, one person at the key and one with the extinguisher.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
