import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'first-start.learning',
    is: 'from-start',
    message: 'The computer learns from the first second: let it learn only once the engine is warm.',
    repair: ['Let it learn only with the engine warm', 'when-warm'],
  },
];

export const rule: StageRule = {
  id: 'engine/learns-cold',
  title: 'Computer learns from a cold engine',
  severity: 'warning',
  why: 'A cold engine needs fuel that never reaches the cylinders as vapor, and its oxygen sensor is not ready. What the computer learns then it goes on using when the engine is warm: too rich at first, and after a few such starts wrong all over.',
  inspect: 'Look in the settings from which coolant temperature on it learns.',
  remedy: 'Learning from the temperature of the thermostat on; for the first start off, with the mixture watched.',
  source: 'common practice',
  check: (situation) => declaredFaults(situation, FAULTS),
};
