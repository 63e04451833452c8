import type { StageRule } from '../../checking/rule.ts';

/** What is usual ahead of injectors, m. Common practice. */
const USUAL = 10e-6;
/** Coarsest filter that still passes for a fine one, m. Common practice, from memory: 10 to 20 um in production cars. */
const COARSEST = 20e-6;
/** Finest pre-filter, m; see `pre-filter-too-fine`, which tells a swapped pair. Common practice. */
const FINEST_BEFORE = 40e-6;

export const rule: StageRule = {
  id: 'fuel-supply/fine-filter-too-coarse',
  title: 'The filter before the injectors is too coarse',
  severity: 'warning',
  why: 'A filter made for a carburetor lets through what an injector cannot: grains as large as its seat gap wear the tip, hold it open or clog its basket. The mixture of single cylinders then wanders, and no setting of the computer cures it.',
  inspect: 'Read the fineness in the data of the filter; a clear plastic filter for a carburetor is a strainer.',
  remedy: 'Fit an injection filter of about 10 um, rated for the pressure, behind the pump.',
  source: 'common practice, from memory: about 10 um, 10 to 20 um in production cars',
  check: ({ values, show }) => {
    const system = values['fuel-system'];
    const rating = system?.filter?.rating;
    const before = system?.['pre-filter']?.rating;
    if (!rating || rating.value <= COARSEST * (1 + 1e-9)) return undefined;
    if (before && before.value < FINEST_BEFORE && rating.value >= FINEST_BEFORE) return undefined;
    const usual = show({ ...rating, value: USUAL });
    return {
      at: 'fuel-system.filter.rating',
      message: `The filter before the injectors stops ${show(rating)}; about ${usual} is usual.`,
      related: values['throttle-body']?.injectors
        ? [{ at: 'throttle-body.injectors', message: 'What it protects.' }]
        : [],
      repairs: [{ title: `Fit a filter of ${usual}`, set: { 'fuel-system.filter.rating': usual } }],
    };
  },
};
