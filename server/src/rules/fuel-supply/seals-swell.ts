import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'fuel-supply/seals-swell',
  title: 'Seals not made for alcohol',
  severity: 'error',
  why: 'Alcohol swells and softens rubber that was made for gasoline, and dries it out when it is gone again. Diaphragms tear, and the seals of injectors and fittings weep fuel over a hot engine, months after the work was done.',
  inspect: 'Ask the maker of each part for what its seals are made of; old parts from the shelf are made for gasoline.',
  remedy:
    'Seals of fluorocarbon rubber or what the maker names for the share of alcohol, in pump, regulator, injectors, filter and every fitting.',
  source: 'common practice; the makers of the parts say what they hold',
  cautions: ['alcohol'],
  check: ({ values }) => {
    const grade = values.fuel?.grade;
    if (grade === undefined || grade === 'gasoline') return undefined;
    if (values['fuel-system']?.seals !== 'gasoline-only') return undefined;
    return {
      at: 'fuel-system.seals',
      message: 'The seals are made for gasoline alone, but the fuel has alcohol in it: take seals made for both.',
      related: [{ at: 'fuel.grade', message: 'The fuel.' }],
      repairs: [{ title: 'Take seals made for alcohol', set: { 'fuel-system.seals': 'alcohol' } }],
    };
  },
};
