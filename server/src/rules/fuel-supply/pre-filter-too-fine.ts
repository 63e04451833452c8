import type { StageRule } from '../../checking/rule.ts';

/** Finest pre-filter, m. Common practice. */
const FINEST = 40e-6;
/** What is usual before the pump, m. Common practice. */
const USUAL = 100e-6;

export const rule: StageRule = {
  id: 'fuel-supply/pre-filter-too-fine',
  title: 'The pre-filter is too fine',
  severity: 'warning',
  why: 'Before the pump only a little pressure is there to push fuel through a filter. A fine one holds it up, more so with every mile of dirt, until the fuel boils at the inlet and the pump cavitates; fine filtering belongs on the pressure side.',
  inspect:
    'Read the fineness of both filters. A gauge at the pump inlet that shows vacuum means that the filter holds the fuel up.',
  remedy: 'A coarse one before the pump, the fine one behind it. Swap them if they were mixed up.',
  source: 'common practice: about 100 um before the pump, not under 40 um',
  check: ({ values, show }) => {
    const system = values['fuel-system'];
    const rating = system?.['pre-filter']?.rating;
    if (!rating || rating.value >= FINEST * (1 - 1e-9)) return undefined;
    const fine = system?.filter?.rating;
    const usual = show({ ...rating, value: USUAL });
    const repairs = [
      {
        title: `Fit a pre-filter of ${usual}`,
        set: { 'fuel-system.pre-filter.rating': usual },
      },
    ];
    const isSwapped = fine && fine.value >= FINEST;
    return {
      at: 'fuel-system.pre-filter.rating',
      message: isSwapped
        ? `The pre-filter stops ${show(rating)} and the filter after the pump ${show(fine)}: they seem to be swapped.`
        : `The pre-filter stops ${show(rating)}; ${show({ ...rating, value: FINEST })} or coarser is usual before the pump.`,
      related: fine ? [{ at: 'fuel-system.filter.rating', message: 'The filter after the pump.' }] : [],
      repairs: isSwapped
        ? [
            {
              title: 'Swap the two filters',
              set: { 'fuel-system.pre-filter.rating': fine.text, 'fuel-system.filter.rating': rating.text },
            },
          ]
        : repairs,
    };
  },
};
