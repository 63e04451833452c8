import type { StageRule } from '../../checking/rule.ts';

/** Weeks that fuel with alcohol may stand in a vented tank. Common practice, from memory: three months. */
const MOST = 13;

export const rule: StageRule = {
  id: 'fuel-supply/alcohol-stands',
  title: 'Fuel with alcohol stands until it draws water',
  severity: 'warning',
  why: 'Alcohol draws water out of the air that a tank breathes. When it has enough, water and alcohol fall out of the gasoline and lie at the bottom, right at the pickup: the engine gets water, the pump rusts, and what is left on top has lost its octane.',
  inspect: 'A sample from the pickup in a clear glass: two layers, or haze on a warm day, is water.',
  remedy:
    'Drain what stood, fill up with fresh fuel before winter or store with fuel without alcohol; look at a sample in spring before the engine is started.',
  source: 'common practice, from memory: three months in a vented tank',
  check: ({ values: { fuel } }) => {
    const weeks = fuel?.['longest-standing'];
    if (fuel?.grade === undefined || fuel.grade === 'gasoline' || weeks === undefined || weeks <= MOST)
      return undefined;
    if (fuel['water-check'] !== false) return undefined;
    return {
      at: 'fuel.longest-standing',
      message: `Fuel with alcohol stands for ${weeks} weeks and nobody looks for water: look at a sample before it is burned, or drain it after ${MOST} weeks.`,
      excess: weeks - MOST,
      repairs: [{ title: `Drain it after ${MOST} weeks`, set: { 'fuel.longest-standing': MOST } }],
    };
  },
};
