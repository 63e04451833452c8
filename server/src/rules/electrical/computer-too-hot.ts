import { above, type StageRule } from '../../checking/rule.ts';

/** What electronics that are not made for the engine bay bear, K: 85 degC. Common practice, from memory. */
const USUAL = 358.15;

export const rule: StageRule = {
  id: 'electrical/computer-too-hot',
  title: 'Computer too hot where it is',
  severity: 'warning',
  why: 'Electronics age twice as fast with every ten degrees, and quit at their limit, which is reached after the engine is switched off and nothing moves the air. The fault is gone when the car has cooled and nobody finds it.',
  inspect: 'A strip that shows the highest temperature, stuck to the case over a hot day with two long stops.',
  remedy:
    'Into the cabin, behind a shield, or into moving air ahead of the radiator support; away from headers and from the outlet of the radiator.',
  source:
    'common practice, from memory: 85 degC for electronics that are not made for the engine bay; the rating of the maker holds',
  check: ({ values, compare }) => {
    const hottest = values.computer?.hottest;
    const rated = hottest && (values.computer?.rated?.value ?? USUAL);
    const miss = hottest && rated && above(hottest, rated);
    if (!miss) return undefined;
    const shown = compare(hottest, rated);
    return {
      at: 'computer.hottest',
      message: `The computer gets ${shown.value} hot, more than the ${shown.limit} it may: move it, or keep the heat away.`,
      ...miss,
      related: [{ at: 'computer.placement', message: 'Where it is mounted.' }],
    };
  },
};
