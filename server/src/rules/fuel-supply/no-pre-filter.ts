import type { StageRule } from '../../checking/rule.ts';
import { describedSystem } from '../../remedies/described-system.ts';

/** A strainer coarse enough not to hold the pump up. Common practice. */
const USUAL_RATING = '100 um';

export const rule: StageRule = {
  id: 'fuel-supply/no-pre-filter',
  title: 'Nothing strains the fuel before the pump',
  severity: 'warning',
  why: 'An injection pump has clearances of a few hundredths of a millimeter, and an old tank has rust and scale. One grain stops the pump or scores it, so a coarse strainer or sock belongs at its inlet.',
  inspect:
    'Pull the pickup or the pump: there must be a sock or a strainer on its inlet. Look into the tank with a lamp that is safe in vapor; rust flakes need cleaning first.',
  remedy: 'Fit a coarse strainer or a sock of about 100 um at the inlet, large enough not to hold the fuel up.',
  source: 'common practice: about 100 um',
  check: ({ values }) => {
    const system = describedSystem(values);
    if (!system || system['pre-filter'] || system.pump?.placement === 'tank-module') return undefined;
    return {
      at: 'fuel-system.pump',
      message: 'The sheet names no strainer or pre-filter before the pump.',
      related: system.filter ? [{ at: 'fuel-system.filter', message: 'The fine filter comes after the pump.' }] : [],
      repairs: [
        {
          title: `Fit a pre-filter of ${USUAL_RATING}`,
          set: { 'fuel-system.pre-filter.rating': USUAL_RATING },
        },
      ],
    };
  },
};
