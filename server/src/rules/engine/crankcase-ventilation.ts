import type { Draft, StageRule } from '../../checking/rule.ts';
import { type Declared, declaredFaults } from '../../remedies/declared.ts';

const FAULTS: readonly Declared[] = [
  {
    field: 'engine.crankcase-ventilation',
    is: 'none',
    message: 'The crankcase is closed off: pressure in it pushes the seals out. Vent it.',
    repair: ['Fit a valve to the manifold', 'valve'],
  },
];

export const rule: StageRule = {
  id: 'engine/crankcase-ventilation',
  title: 'Crankcase not vented as it must be',
  severity: 'warning',
  why: 'What gets past the rings has to go somewhere. Closed off, it pushes oil through every seal; a valve without a check valve lets boost into the crankcase. The flow of the valve is also part of the air at idle, which the computer has to know.',
  inspect:
    'Cap off, engine idling: a sheet of paper must be drawn on, not blown away. With boost, watch a gauge on the crankcase.',
  remedy:
    'A valve of the size of the engine to a port of its own in the manifold and a filtered breather on the other side; with boost a check valve that holds it. Local law may ask for the system the car came with.',
  source: 'common practice',
  check: (situation) => {
    const { values, stage, induction } = situation;
    const kind = values.engine?.['crankcase-ventilation'];
    const draft: Draft[] =
      kind === 'valve' && induction !== 'natural' && stage.boost
        ? [
            {
              at: 'engine.crankcase-ventilation',
              message: `A plain valve lets ${situation.show(stage.boost)} of boost into the crankcase: put a check valve into its hose.`,
              related: [{ at: 'stages.boost', message: 'The boost of this stage.' }],
              repairs: [
                {
                  title: 'Put a check valve into its hose',
                  set: { 'engine.crankcase-ventilation': 'valve-with-check' },
                },
              ],
            },
          ]
        : [];
    return [...draft, ...declaredFaults(situation, FAULTS)];
  },
};
