import type { StageRule } from '../../checking/rule.ts';

export const rule: StageRule = {
  id: 'throttle-body/not-boost-rated',
  title: 'Throttle body not rated for boost',
  severity: 'error',
  capacity: true,
  why: 'Behind the compressor the throttle body is under boost: unsealed shafts blow fuel mist out over a hot engine, which is a fire, and the boost is lost. Only a body its maker rates for boost, under a sealed hat, belongs there.',
  inspect: 'Look for shaft seals and a sealed hat, and ask the maker in writing.',
  remedy: 'Fit a throttle body that its maker rates for boost, under a sealed hat, or put it ahead of the compressor.',
  source: 'common practice',
  check: ({ values, stage, path, show }) => {
    if (path !== 'blow-through' || !stage.boost?.value) return undefined;
    if (values['throttle-body']?.['boost-rated'] !== false) return undefined;
    return {
      at: 'throttle-body.boost-rated',
      message: `${show(stage.boost)} of boost is blown through the throttle body, which is not rated for boost.`,
      related: [{ at: 'stages.boost', message: 'The boost.' }],
      excess: stage.boost.value,
      repairs: [{ title: 'Fit a throttle body rated for boost', set: { 'throttle-body.boost-rated': true } }],
    };
  },
};
