import { alcohol } from '../../analysis/fuel.ts';
import type { StageRule } from '../../checking/rule.ts';

/** Share of alcohol from which paper and its glue give way. Common practice, from memory. */
const FROM = 0.2;

export const rule: StageRule = {
  id: 'fuel-supply/filter-media-alcohol',
  title: 'Paper filter in alcohol',
  severity: 'warning',
  why: 'Strong blends dissolve the glue of a paper element and the deposits of old tanks at once. The element swells shut or lets go, and its fibers go into the injectors.',
  inspect: 'Cut the old filter open: soft pleats and brown slime tell it.',
  remedy: 'Stainless mesh or glass fiber of the same fineness, changed after the first two tanks.',
  source: 'common practice, from memory: from 20 % of alcohol on',
  cautions: ['alcohol'],
  check: ({ values, know, showValue }) => {
    if (values['fuel-system']?.['filter-media'] !== 'paper') return undefined;
    const shares = know(alcohol);
    const share = shares ? shares.ethanol + shares.methanol : 0;
    if (share < FROM) return undefined;
    return {
      at: 'fuel-system.filter-media',
      message: `A paper filter does not last in fuel with ${showValue(share, 'ratio')} of alcohol: take stainless mesh or glass fiber.`,
      related: [{ at: 'fuel.grade', message: 'The fuel.' }],
      repairs: [
        { title: 'Take an element of glass fiber', set: { 'fuel-system.filter-media': 'glass-fiber' } },
        { title: 'Take an element of stainless mesh', set: { 'fuel-system.filter-media': 'stainless' } },
      ],
    };
  },
};
