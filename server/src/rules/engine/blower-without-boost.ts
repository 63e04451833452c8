import type { StageRule } from '../rule.ts';

/** Boost of a first, mild setting by kind of blower. Common practice. */
const FIRST_BOOST = { roots: '5 psi', centrifugal: '6 psi', turbo: '7 psi' } as const;
const NAMES = { roots: 'a roots blower', centrifugal: 'a centrifugal blower', turbo: 'a turbocharger' } as const;

export const rule: StageRule = {
  id: 'engine/blower-without-boost',
  title: 'Blower without boost',
  severity: 'warning',
  why: 'Without the boost the range of the pressure sensor, the pressure across the injectors, the charge temperature and the knock caution cannot be worked out. The boost decides most of the parts a blown engine needs.',
  source: 'common practice',
  check: ({ stage, show, induction }) => {
    if (induction === 'natural' || !stage.power || stage.boost?.value) return undefined;
    const boost = FIRST_BOOST[induction];
    return {
      at: stage.boost ? 'stage.boost' : 'stage.induction',
      message: `${show(stage.power)} with ${NAMES[induction]}, but ${stage.boost ? `a boost of ${show(stage.boost)}` : 'no boost is written down'}.`,
      repairs: [
        { title: `Plan for ${boost}, a usual first setting`, set: { 'stage.boost': boost } },
        {
          title: 'Take this stage as naturally aspirated',
          set: { 'stage.induction': 'natural' },
          remove: stage.boost ? ['stage.boost'] : [],
        },
      ],
    };
  },
};
