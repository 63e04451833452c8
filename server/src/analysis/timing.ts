import { startingAdvance, startingTiming, TIMING_CAUTION } from '../engineering/timing.ts';
import { boost } from './boost.ts';
import { idleSpeed, peakPowerSpeed } from './engine.ts';
import { induction } from './induction.ts';
import { fact, field, figure } from './node.ts';

const SOURCE = 'common practice for pump fuel, no source';
const HOME = ['ignition.total-timing', 'ignition'] as const;
const ABOUT = { symbol: 'adv', dimension: 'angle', source: SOURCE, home: HOME } as const;

const usual = fact({ id: 'usual-timing', from: { induction }, compute: ({ induction }) => startingTiming(induction) });

export const idleTiming = figure({
  ...ABOUT,
  id: 'timing-idle',
  name: 'timing at idle to start from',
  formula: 'usual for the induction',
  notes: [TIMING_CAUTION],
  from: { usual },
  compute: ({ usual }) => usual.idle,
});

export const cruiseTiming = figure({
  ...ABOUT,
  id: 'timing-cruise',
  name: 'timing at cruise to start from',
  formula: 'usual for the induction',
  notes: [TIMING_CAUTION],
  from: { usual },
  compute: ({ usual }) => usual.cruise,
});

export const fullLoad = field('ignition.total-timing', 'adv_own', {
  from: { usual },
  compute: ({ usual }) => usual.fullLoad,
  because: SOURCE,
});
const retardPerBoost = field('ignition.retard-per-boost', 'r_b', {
  from: { usual },
  compute: ({ usual }) => usual.retardPerBoost,
  because: SOURCE,
});

export const fullLoadTiming = figure({
  ...ABOUT,
  id: 'timing-full-load',
  name: 'timing at full load to start from',
  formula: 'adv_own - r_b * boost',
  notes: [TIMING_CAUTION, 'before top dead center, at peak-power speed'],
  from: { usual, fullLoad, retardPerBoost, idleSpeed, peakPowerSpeed, boost },
  compute: ({ usual, fullLoad, retardPerBoost, idleSpeed, peakPowerSpeed, boost }) =>
    startingAdvance(
      { ...usual, fullLoad, retardPerBoost },
      { speed: peakPowerSpeed, idleSpeed, manifoldPressure: STANDARD + boost, ambient: STANDARD },
    ),
});

/** Any air pressure, Pa: only the boost over it counts. */
const STANDARD = 101325;
