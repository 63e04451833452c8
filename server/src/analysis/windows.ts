import { requiredStaticFlow } from '../engineering/injectors.ts';
import { boreForVelocity } from '../engineering/lines.ts';
import { airflowRating, FOUR_BORE_TEST_DEPRESSION, throttleFlow } from '../engineering/throttle.ts';
import { airShareColdest, hotShare } from './days.ts';
import { airDemand } from './demand.ts';
import { idleSpeed } from './engine.ts';
import { idleFuel } from './idle.ts';
import { deadTime, injectorCount, pulsesPerCycle, shortestPulse } from './injectors.ts';
import { constant, fact, figure, limit } from './node.ts';
import { feedFlow } from './supply.ts';
import { airflowNeeded, coldUpstream, gas, hotUpstream } from './throttle.ts';

export const largestStaticFlow = figure({
  id: 'largest-static-flow',
  symbol: 'm_s,max',
  name: 'static flow at idle above which each injector is too big to idle',
  dimension: 'injector-flow',
  formula: 'm_f,i / n * 2 / (k N_i) / (t_short - t_d), k pulses per cycle',
  source: 'kinematics of the four-stroke cycle',
  home: ['throttle-body.injectors'],
  notes: ['upper end of throttle-body/idle-pulse-short; it does not depend on the day'],
  from: { idleFuel, injectorCount, deadTime, shortestPulse, idleSpeed, pulsesPerCycle },
  compute: (v) => {
    const period = 2 / (v.pulsesPerCycle * v.idleSpeed);
    return requiredStaticFlow(v.idleFuel / v.injectorCount, v.shortestPulse / period, {
      deadTime: v.deadTime,
      speed: v.idleSpeed,
      pulsesPerCycle: v.pulsesPerCycle,
    });
  },
});

const mostDepression = limit('pressure-drop');

/** Effective area, m2, that passes the air of a day at the largest pressure drop. */
const coldArea = fact({
  id: 'area-on-the-coldest-day',
  from: { airDemand, airShareColdest, coldUpstream, mostDepression },
  compute: (v) => (v.airDemand * v.airShareColdest) / throttleFlow(1, v.mostDepression, gas(v.coldUpstream)).massFlow,
});
const hotArea = fact({
  id: 'area-on-the-hottest-day',
  from: { airDemand, hotShare, hotUpstream, mostDepression },
  compute: (v) => (v.airDemand * v.hotShare) / throttleFlow(1, v.mostDepression, gas(v.hotUpstream)).massFlow,
});

export const leastThrottleArea = figure({
  id: 'throttle-area-least',
  symbol: 'A_min',
  name: 'least effective area of all bores',
  dimension: 'area',
  formula: 'm_a,P a / mass flux at the largest pressure drop, a the air of the day',
  source: 'NACA Report 1135 (1953); Heywood (1988), eqs. C.8 and C.9',
  home: ['throttle-body.bores', 'throttle-body'],
  notes: ({ coldArea, hotArea }) => [
    `lower end of throttle-body/airflow-too-small, on ${coldArea > hotArea ? 'the coldest, lowest day' : 'the hottest, highest day'}`,
  ],
  from: { coldArea, hotArea },
  compute: ({ coldArea, hotArea }) => Math.max(coldArea, hotArea),
});

/** Share of the airflow rating under which the throttle is touchy and the idle plates barely open. Common practice, from memory. */
export const LEAST_AIRFLOW_SHARE = 1 / 3;

const leastShare = constant({
  symbol: 's_min',
  name: 'share of its airflow a throttle body should be used to',
  value: LEAST_AIRFLOW_SHARE,
  dimension: 'ratio',
  assumed: 'common practice, from memory',
});

export const mostThrottleArea = figure({
  id: 'throttle-area-most',
  symbol: 'A_max',
  name: 'effective area of all bores above which the throttle gets touchy',
  dimension: 'area',
  formula: 'Q_need / (s_min * rating of one m2 at 1.5 inHg)',
  source: 'NACA Report 1135; the share is common practice, from memory',
  home: ['throttle-body.bores', 'throttle-body'],
  notes: ['upper end of throttle-body/airflow-far-too-large, on the hottest, highest day'],
  from: { airflowNeeded, leastShare },
  compute: ({ airflowNeeded, leastShare }) =>
    airflowNeeded / (leastShare * airflowRating(1, FOUR_BORE_TEST_DEPRESSION)),
});

const fastest = limit('feed-velocity');

export const leastFeedBore = figure({
  id: 'feed-bore-least',
  symbol: 'd_min',
  name: 'least bore of the feed line for its flow',
  dimension: 'length',
  formula: 'sqrt(4 Q / (pi v))',
  source: 'continuity; the velocity is common practice',
  home: ['fuel-system.feed'],
  notes: ['lower end of fuel-supply/feed-velocity'],
  from: { feedFlow, fastest },
  compute: ({ feedFlow, fastest }) => boreForVelocity(feedFlow, fastest),
});
