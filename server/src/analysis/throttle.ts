import { type Air, airDensity } from '../engineering/air.ts';
import {
  airflowRating,
  boreArea,
  DISCHARGE_COEFFICIENT,
  depressionAt,
  effectiveArea as effectiveAreaOf,
  FOUR_BORE_TEST_DEPRESSION,
  ratedArea,
  ratingAt,
  TWO_BORE_TEST_DEPRESSION,
} from '../engineering/throttle.ts';
import { airShareColdest, coldestAir, hotShare, hottestAir } from './days.ts';
import { airDemand } from './demand.ts';
import { inductionPath } from './induction.ts';
import { throttleBodies } from './injectors.ts';
import { choose, fact, field, figure, given, type Node, optional } from './node.ts';

const HOME = ['throttle-body.bores', 'throttle-body'] as const;
const STAGE_HOME = ['throttle-body.bores', 'throttle-body', 'stages'] as const;

const isRated = given('throttle-body.rated-airflow');
const ratedAirflow = field('throttle-body.rated-airflow', 'Q_rated');
const bores = field('throttle-body.bores.quantity', 'n_b');
const knownBores = optional(bores);

const testDepression = field('throttle-body.rated-pressure-drop', 'dp_test', {
  from: { knownBores },
  compute: ({ knownBores }) => (isTwoBore(knownBores) ? TWO_BORE_TEST_DEPRESSION : FOUR_BORE_TEST_DEPRESSION),
  because: ({ knownBores }) => `common practice for ${isTwoBore(knownBores) ? 'two' : 'four'} bores`,
});

function isTwoBore(bores: number | undefined): boolean {
  return (bores ?? 4) <= 2;
}

const areaByRating = fact({
  id: 'area-by-rating',
  from: { ratedAirflow, testDepression, throttleBodies },
  compute: ({ ratedAirflow, testDepression, throttleBodies }) =>
    throttleBodies * ratedArea(ratedAirflow, testDepression),
});

const dischargeCoefficient = field('throttle-body.bores.discharge-coefficient', 'C_d', {
  value: DISCHARGE_COEFFICIENT,
  because: 'common practice, 0.7 to 0.85',
});
const boreDiameter = field('throttle-body.bores.diameter', 'd');

const areaByBores = fact({
  id: 'area-by-bores',
  from: { throttleBodies, bores, dischargeCoefficient, boreDiameter },
  compute: ({ throttleBodies, bores, dischargeCoefficient, boreDiameter }) =>
    throttleBodies * effectiveAreaOf(boreArea([{ quantity: bores, diameter: boreDiameter }]), dischargeCoefficient),
});

export const effectiveArea = figure({
  id: 'effective-area',
  symbol: 'A',
  name: 'effective area of all bores',
  dimension: 'area',
  formula: ({ isRated }) =>
    isRated ? 'n_tb * area that passes the rated flow at dp_test' : 'n_tb * n_b * C_d * pi d^2 / 4',
  source: ({ isRated }) => (isRated ? 'NACA Report 1135 (1953), solved for the area' : 'geometry'),
  home: HOME,
  from: {
    isRated,
    area: choose({
      id: 'area-of-the-bores',
      from: { isRated },
      among: ({ isRated }) => (isRated ? areaByRating : areaByBores),
    }),
  },
  compute: ({ area }) => area,
});

type Upstream = { readonly pressure: number; readonly temperature: number };

/** Air ahead of the throttle plates at full load on a day: behind the blower in a blow-through. */
function upstreamOn(id: string, { air, charge }: { air: Node<Upstream>; charge: Node<Upstream> }) {
  return choose<Upstream, { inductionPath: typeof inductionPath }>({
    id,
    from: { inductionPath },
    among: ({ inductionPath }) => (inductionPath === 'blow-through' ? charge : air),
  });
}

export const hotUpstream = upstreamOn('upstream-on-the-hottest-day', hottestAir);
export const coldUpstream = upstreamOn('upstream-on-the-coldest-day', coldestAir);

/** Air as the flow through the bores needs it. */
export function gas({ pressure, temperature }: Upstream): Air {
  return { pressure, temperature, density: airDensity(pressure, temperature) };
}

function depressionOn<const Id extends string>(
  id: Id,
  day: string,
  symbol: string,
  share: Node<number>,
  upstream: Node<Upstream>,
) {
  return figure({
    id,
    symbol,
    name: `pressure drop through the throttle body at full power on ${day}`,
    dimension: 'depression',
    formula: 'solved: m_a,P a = A p_0 / sqrt(R T_0) sqrt(2g/(g-1) (r^(2/g) - r^((g+1)/g))), a the air of the day',
    source:
      'NACA Report 1135 (1953); Heywood (1988), eqs. C.8 and C.9; air of the day: air term of SAE J1349 (1990), read in secondary copies',
    home: STAGE_HOME,
    notes: ({ inductionPath }) =>
      inductionPath === 'blow-through' ? ['upstream air at boost and charge temperature'] : [],
    from: { airDemand, share, effectiveArea, upstream, inductionPath },
    compute: (v) => depressionAt(v.airDemand * v.share, v.effectiveArea, gas(v.upstream)),
  });
}

export const depression = depressionOn('depression', 'the hottest, highest day', 'dp_tb', hotShare, hotUpstream);
export const depressionColdest = depressionOn(
  'depression-coldest-day',
  'the coldest, lowest day',
  'dp_tb,cold',
  airShareColdest,
  coldUpstream,
);

function airflowAt<const Id extends string>(id: Id, test: number, word: string) {
  return figure({
    id,
    symbol: 'Q',
    name: `airflow of all throttle bodies at ${word}`,
    dimension: 'air-flow',
    formula: 'compressible flow at the test pressure drop, sea-level standard air',
    source: 'NACA Report 1135 (1953); test pressure drops common practice',
    home: HOME,
    notes: ['by compressible flow'],
    from: { effectiveArea },
    compute: ({ effectiveArea }) => airflowRating(effectiveArea, test),
  });
}

export const airflowFourBore = airflowAt(
  'airflow-four-bore',
  FOUR_BORE_TEST_DEPRESSION,
  '1.5 inHg, the custom for four bores',
);
export const airflowTwoBore = airflowAt(
  'airflow-two-bore',
  TWO_BORE_TEST_DEPRESSION,
  '3.0 inHg, the custom for two bores',
);

export const airflowTwoBoreTrade = figure({
  id: 'airflow-two-bore-trade',
  symbol: 'Q_sqrt2',
  name: 'the same at 3.0 inHg by the custom of sqrt(2)',
  dimension: 'air-flow',
  formula: 'Q(1.5 inHg) * sqrt(3.0 / 1.5)',
  source: 'common practice; compressible flow gives 3 % less',
  home: ['throttle-body.bores', 'throttle-body.rated-airflow'],
  from: { effectiveArea },
  compute: ({ effectiveArea }) =>
    ratingAt(
      airflowRating(effectiveArea, FOUR_BORE_TEST_DEPRESSION),
      FOUR_BORE_TEST_DEPRESSION,
      TWO_BORE_TEST_DEPRESSION,
    ),
});

export const airflowNeeded = figure({
  id: 'airflow-needed',
  symbol: 'Q_need',
  name: 'airflow the claimed power needs on the hottest day, upstream of the throttle',
  dimension: 'air-flow',
  formula: 'm_a,P a / rho_upstream',
  source: 'ideal gas; air of the day: air term of SAE J1349 (1990), read in secondary copies',
  home: STAGE_HOME,
  from: { airDemand, hotShare, hotUpstream },
  compute: ({ airDemand, hotShare, hotUpstream }) => (airDemand * hotShare) / gas(hotUpstream).density,
});

export const airflowShare = figure({
  id: 'airflow-share',
  symbol: 's_Q',
  name: 'share of the throttle body that the engine uses',
  dimension: 'ratio',
  formula: 'Q_need / Q(1.5 inHg)',
  source: 'definition',
  home: HOME,
  from: { airflowNeeded, airflowFourBore },
  compute: ({ airflowNeeded, airflowFourBore }) => airflowNeeded / airflowFourBore,
});
