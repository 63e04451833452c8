import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'engine.exhaust-recirculation',
    is: 'on-manifold-vacuum',
    message: 'The recirculation valve hangs on full manifold vacuum and opens at idle: lead it to the source it had.',
    repair: ['Work it as it was', 'kept'],
  },
  {
    field: 'engine.exhaust-recirculation',
    is: 'open',
    message:
      'The port of the recirculation valve is open and lets exhaust or air in: close it, or fit the valve again.',
  },
];

export const rule: StageRule = {
  id: 'engine/exhaust-recirculation',
  title: 'Exhaust-gas recirculation worked wrongly',
  severity: 'warning',
  why: 'Exhaust gas let in at idle puts the engine out; an open port is a leak of hot gas or of air. The manifold pressure of the computer counts recirculated gas as air, so that the mixture is off wherever the valve is open and nothing allows for it.',
  inspect: 'At warm idle the valve must be shut: press it open by hand, wearing a glove, and the engine must stumble.',
  remedy:
    'Work it as it was, by a source that shows nothing at idle. Whether it may be taken off is for the law of the place to say, not for the tuner.',
  source: 'common practice; the local authority decides what must stay',
  check: (situation) => declaredFaults(situation, FAULTS),
};
