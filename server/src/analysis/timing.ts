import { startingAdvance, startingTiming, TIMING_CAUTION } from '../engineering/timing.ts';
import { boost } from './boost.ts';
import { idleSpeed, peakPowerSpeed } from './engine.ts';
import { retardForNitrous, retardPerBoost } from './full-load-spark.ts';
import { induction } from './induction.ts';
import { knockLimitedSparkHottest } from './knock.ts';
import { fact, field, figure, optional } from './node.ts';

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

const fullLoad = field('ignition.total-timing', 'adv_own', {
  from: { usual },
  compute: ({ usual }) => usual.fullLoad,
  because: `to start tuning from: ${SOURCE}`,
});

const limitedSpark = optional(knockLimitedSparkHottest);

export const fullLoadTiming = figure({
  ...ABOUT,
  id: 'timing-full-load',
  name: 'timing at full load to start from',
  formula: 'min(adv_own - r_b * p_b - r_n, adv_k)',
  notes: ({ limitedSpark }) => [
    TIMING_CAUTION,
    'before top dead center, at peak-power speed',
    limitedSpark === undefined
      ? 'not held against the knock-limited spark, which is not known'
      : 'no more than the knock-limited spark on the hottest day',
  ],
  from: {
    usual,
    fullLoad,
    retardPerBoost,
    retardForNitrous,
    idleSpeed,
    peakPowerSpeed,
    boost,
    limitedSpark,
  },
  compute: ({ usual, fullLoad, retardPerBoost, retardForNitrous, idleSpeed, peakPowerSpeed, boost, limitedSpark }) =>
    Math.min(
      startingAdvance(
        { ...usual, fullLoad, retardPerBoost },
        {
          speed: peakPowerSpeed,
          idleSpeed,
          manifoldPressure: STANDARD + boost,
          ambient: STANDARD,
          retard: retardForNitrous,
        },
      ),
      limitedSpark ?? Number.POSITIVE_INFINITY,
    ),
});

/** Any air pressure, Pa: only the boost over it counts. */
const STANDARD = 101325;
