import { fullLoadSpark as sparkOf, startingTiming, usualFullAdvance } from '../engineering/timing.ts';
import { boost } from './boost.ts';
import { induction, isBoosted } from './induction.ts';
import { nitrousRetard } from './nitrous.ts';
import { choose, constant, field, figure } from './node.ts';
import { hasNitrous } from './power.ts';

const SOURCE = 'common practice, no source';

/** Total timing of the sheet, degrees, or what such engines are given. */
export const fullAdvance = field('ignition.total-timing', 'adv', {
  from: { induction },
  compute: ({ induction }) => usualFullAdvance(induction),
  because: ({ induction }) =>
    induction === 'natural'
      ? 'not said; common practice: full advance of such engines'
      : 'not said; common practice: full advance of such engines, before boost is taken out',
});

/** Timing taken out for boost, degrees per pascal. */
export const retardPerBoost = field('ignition.retard-per-boost', 'r_b', {
  from: { induction },
  compute: ({ induction }) => startingTiming(induction).retardPerBoost,
  because: 'common practice for pump fuel, no source',
});

const statedNitrousRetard = field('ignition.nitrous-retard', 'r_n', {
  from: { nitrousRetard },
  compute: ({ nitrousRetard }) => nitrousRetard,
  because: 'common practice: 2 deg per 50 hp',
});
const nothing = constant({
  symbol: 'r_n',
  name: 'retard for nitrous',
  value: 0,
  dimension: 'angle',
  assumed: 'no nitrous',
});

/** Timing taken out for nitrous, degrees. */
export const retardForNitrous = choose({
  id: 'retard-for-nitrous',
  from: { hasNitrous },
  among: ({ hasNitrous }) => (hasNitrous ? statedNitrousRetard : nothing),
});

export const fullLoadSpark = figure({
  id: 'full-load-spark',
  symbol: 'spark',
  name: 'spark at full load by the sheet',
  dimension: 'angle',
  formula: ({ isBoosted }) => (isBoosted ? 'max(adv - r_b * p_b, 10 deg) - r_n' : 'adv - r_n'),
  source: SOURCE,
  home: ['ignition.total-timing', 'ignition'],
  notes: ['before top dead center, from 3,000 rpm on'],
  from: { isBoosted, fullAdvance, retardPerBoost, boost, retardForNitrous },
  compute: (v) => sparkOf(v.fullAdvance, v.retardPerBoost * v.boost, v.retardForNitrous),
});
