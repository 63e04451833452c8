import type { StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'transmission.load-signal',
    is: 'none',
    message:
      'Nothing tells the automatic how far the throttle is open: connect its cable, rod or modulator before it is driven.',
  },
  {
    field: 'transmission.modulator-port',
    is: 'ported',
    message:
      'The modulator of the transmission is on a port above the throttle plates, which shows no vacuum at idle: move it to the manifold.',
    repair: ['Connect the modulator to the manifold', 'manifold'],
  },
  {
    field: 'transmission.modulator-port',
    is: 'none',
    message: 'The modulator of the transmission hangs on nothing: connect it to the manifold.',
    repair: ['Connect the modulator to the manifold', 'manifold'],
  },
  {
    field: 'transmission.adjusted',
    is: false,
    message:
      'Cable, rod or modulator was not set for the new throttle body: set it by the book of the transmission before the car is driven.',
  },
];

export const rule: StageRule = {
  id: 'throttle-body/load-signal-lost',
  title: 'Automatic does not learn how far the throttle is open',
  severity: 'error',
  why: 'An automatic without electronics knows the load from a cable, a rod or a vacuum hose that ended at the carburetor. Left off or set by eye it holds the clutches with idle pressure, or shifts as if always at full throttle, and is burned before anyone hears it.',
  inspect:
    'Follow cable, rod and hose from the transmission to their ends; a gauge on its pressure port shows whether the pressure rises with the throttle.',
  remedy:
    'A bracket and lever made for this transmission, or a hose from full manifold vacuum; then set it by the book of the transmission, pressure gauge on it, before the first drive.',
  source: 'common practice; the book of the transmission holds',
  check: (situation) =>
    situation.values.transmission?.kind === 'automatic' ? declaredFaults(situation, FAULTS) : undefined,
};
