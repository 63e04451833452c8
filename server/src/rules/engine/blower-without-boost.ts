import type { StageRule } from '../../checking/rule.ts';

/** Boost of a first, mild setting by kind of blower. Common practice. */
const FIRST_BOOST = { roots: '5 psi', centrifugal: '6 psi', turbo: '7 psi' } as const;
const NAMES = { roots: 'a roots blower', centrifugal: 'a centrifugal blower', turbo: 'a turbocharger' } as const;

export const rule: StageRule = {
  id: 'engine/blower-without-boost',
  title: 'Blower or turbo without boost',
  severity: 'warning',
  why: 'The boost decides the range of the pressure sensor, the pressure across the injectors, the charge temperature and the fuel the engine stands. Without it none of them can be worked out.',
  inspect: 'Boost gauge at full load, or what the pulleys and the wastegate spring are for.',
  remedy:
    'Write down the boost that is planned. For a first setting stay low and let whoever tunes the engine raise it.',
  source: 'common practice',
  check: ({ stage, show, induction }) => {
    if (induction === 'natural' || !stage.power || stage.boost?.value) return undefined;
    const boost = FIRST_BOOST[induction];
    return {
      at: stage.boost ? 'stages.boost' : 'stages.induction',
      message: `${show(stage.power)} with ${NAMES[induction]}, but ${stage.boost ? `a boost of ${show(stage.boost)}` : 'no boost is written down'}.`,
      repairs: [
        { title: `Plan for ${boost}, a usual first setting`, set: { 'stages.boost': boost } },
        {
          title: 'Take this stage as naturally aspirated',
          set: { 'stages.induction': 'natural' },
          remove: stage.boost ? ['stages.boost'] : [],
        },
      ],
    };
  },
};
