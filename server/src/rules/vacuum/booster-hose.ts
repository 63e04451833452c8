import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'brakes.port',
    is: 'ported',
    message:
      'The brake booster hangs on a port above the throttle plates, with no vacuum when the foot is off the gas: move it to the manifold.',
    repair: ['Connect the booster to a manifold port of its own', 'own-manifold-port'],
  },
  {
    field: 'brakes.check-valve',
    is: false,
    message: 'No check valve holds the vacuum in the brake booster: fit one, and try it with the engine off.',
    repair: ['Fit a check valve into the booster hose', true],
  },
];

export const rule: StageRule = {
  id: 'vacuum/booster-hose',
  title: 'Brake booster loses its vacuum',
  severity: 'error',
  why: 'The check valve keeps what the booster has when the engine stalls, backfires or makes boost; without it the first stop after that has no help. A port above the plates shows vacuum under load and none at the very moment one brakes.',
  inspect:
    'Engine off for ten minutes: the first press of the pedal must still be helped. Pull the hose off the booster: air rushes in.',
  remedy:
    'A large port of the manifold for the booster alone, hose made for vacuum, a check valve at the booster; with a blower one that is made for boost.',
  source: 'common practice',
  cautions: ['brakes'],
  check: (situation) => (situation.values.brakes?.booster === 'vacuum' ? declaredFaults(situation, FAULTS) : undefined),
};
