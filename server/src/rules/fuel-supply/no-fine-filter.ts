import type { StageRule } from '../../checking/rule.ts';
import { describedSystem } from '../../remedies/described-system.ts';

/** What is usual ahead of injectors. Common practice. */
const USUAL_RATING = '10 um';

export const rule: StageRule = {
  id: 'fuel-supply/no-fine-filter',
  title: 'Nothing filters the fuel before the injectors',
  severity: 'warning',
  why: 'What passes the strainer and what the pump itself wears off ends in the injectors, whose baskets hold a pinch of dirt and cannot be cleaned in place. An injector that clogs or sticks open runs its cylinders lean or floods them.',
  inspect: 'Follow the feed from pump to rail.',
  remedy:
    'Fit an injection filter of about 10 um after the pump, arrow with the flow, bracket on the frame, away from the exhaust.',
  source: 'common practice: about 10 um',
  check: ({ values }) => {
    const system = describedSystem(values);
    if (!system || system.filter) return undefined;
    return {
      at: 'fuel-system.feed',
      message: 'The sheet names no fine filter between the pump and the injectors.',
      related: system['pre-filter']
        ? [{ at: 'fuel-system.pre-filter', message: 'This one only protects the pump.' }]
        : [],
      repairs: [
        {
          title: `Fit a fine filter of ${USUAL_RATING} after the pump`,
          set: { 'fuel-system.filter.rating': USUAL_RATING },
        },
      ],
    };
  },
};
