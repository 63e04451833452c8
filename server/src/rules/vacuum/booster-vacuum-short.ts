import { boosterVacuum } from '../../analysis/brakes.ts';
import { below, type StageRule } from '../../checking/rule.ts';

/** Vacuum for the full help of a booster, Pa: 15 inHg. Common practice, from memory. */
const USUAL = 15 * 3386.389;

export const rule: StageRule = {
  id: 'vacuum/booster-vacuum-short',
  title: 'Too little vacuum for the brake booster',
  severity: 'error',
  why: 'The booster pushes with the vacuum that the engine leaves in it. A cam with long overlap, a high place and a converter that drags leave little, and the pedal goes hard in the second stop of a parking lot, just when nobody expects it.',
  inspect:
    'Gauge at the booster hose, warm idle, in gear: then three firm stops from walking speed in an empty yard, and the vacuum after each.',
  remedy:
    'A vacuum pump with a switch, or a booster that works with hydraulics; a reservoir only helps for one more stop. Brakes are work for a licensed shop.',
  source: 'gauge pressure by definition; vacuum by the cam and 15 inHg for full boost are common practice, from memory',
  cautions: ['brakes'],
  check: ({ values: { brakes }, see, compare, showValue }) => {
    if (brakes?.booster !== 'vacuum') return undefined;
    const least = brakes['least-vacuum']?.value ?? USUAL;
    const vacuum = see(boosterVacuum);
    if (brakes.help === undefined || brakes.help === 'pump' || !vacuum) return undefined;
    const miss = below(vacuum, least);
    if (!miss) return undefined;
    const shown = compare({ ...vacuum, dimension: 'depression' }, least);
    return {
      at: 'brakes.booster',
      message: `The manifold has ${shown.value} of vacuum at idle, but the brake booster needs ${shown.limit}: fit a vacuum pump or boost the brakes by hydraulics.`,
      ...miss,
      related: [
        { at: 'engine.cam-duration', message: `The cam; ${showValue(least, 'depression')} is what the booster needs.` },
      ],
      repairs: [
        { title: 'Fit a vacuum pump for the booster', set: { 'brakes.help': 'pump' } },
        { title: 'Boost the brakes by hydraulics', set: { 'brakes.booster': 'hydraulic' } },
      ],
    };
  },
};
