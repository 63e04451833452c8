import { chargeTemperature as chargeTemperatureOf } from '../engineering/charge.ts';
import { chargeOf } from '../engineering/day.ts';
import type { Fuel } from '../engineering/fuels.ts';
import type { FullLoad } from '../engineering/full-load.ts';
import type { Curve } from '../engineering/interpolation.ts';
import {
  closingOfCam,
  type HeadMaterial,
  indexAtShare,
  indexOn,
  knockCurve,
  type LimitedSpark,
  limitedSparkOn,
  REFERENCE_AIR,
  REFERENCE_CLOSING,
  REFERENCE_SPEED,
  sparkRange,
  usualBurn,
} from '../engineering/knock.ts';
import { nitrousCooling, nitrousEnergyRatio } from '../engineering/nitrous.ts';
import { ALCOHOL_FUEL, antiknockOfAlcohol } from '../engineering/octane.ts';
import { formatValue } from '../units/format.ts';
import { hottestDay, lowPressure } from './air.ts';
import { boost } from './boost.ts';
import { claimAir } from './claim.ts';
import { airOf, chargeOn, charger, keptByInduction } from './days.ts';
import { airDemand, lambda } from './demand.ts';
import { compressionRatio, knownCam } from './engine.ts';
import { alcohol, chemistry } from './fuel.ts';
import { fullAdvance, fullLoadSpark, retardForNitrous, retardPerBoost } from './full-load-spark.ts';
import { nitrousFlow } from './nitrous.ts';
import { choice, choose, constant, fact, field, figure, type Node, optional } from './node.ts';
import { addedPower, hasNitrous, stagePower } from './power.ts';

const HOME = [
  'engine.compression-ratio',
  'engine.head-material',
  'fuel.octane',
  'ignition.total-timing',
  'stages',
] as const;

const MODEL =
  'integral of dt / tau: Livengood and Wu (1955); tau = 17.68 ms (ON / 100)^3.402 p^-1.7 exp(3800 K / T): Douaud and Eyzat, SAE 780080 (1978), Heywood eq. 9.29; from memory';
const ESTIMATE = 'an estimate for a second look, never a clearance: one zone, rod ratio 3.5, Wiebe burn of 60 deg';
const REFERENCE =
  '1 is an engine the trade knows to live, by the same model: 9.5 to 1 with iron heads or 10.5 with aluminum, 91 AKI, 34 deg at 3,000 rpm, charge of 330 K; common practice';
const OUTSIDE = 'alcohol is outside what the delay was measured for: by its octane and its cooling only';

/** What the heads are made of. */
const headMaterial = choice<HeadMaterial>('engine.head-material', 'heads', {
  value: 'iron',
  because: 'not said; iron is the safe side',
});

const intakeClosing = field('engine.intake-closing', 'IVC', {
  from: { knownCam },
  compute: ({ knownCam }) => (knownCam === undefined ? REFERENCE_CLOSING : closingOfCam(knownCam)),
  because: ({ knownCam }) =>
    knownCam === undefined
      ? 'not said; common practice: a mild cam'
      : 'common practice, by the cam duration: center at 108 deg, closed 20 deg after the 0.050 in mark',
});

/** Whether the fuel has its octane from its alcohol. */
export const isAlcoholFuel = fact({
  id: 'is-alcohol-fuel',
  from: { alcohol },
  compute: ({ alcohol }) => alcohol.ethanol + alcohol.methanol >= ALCOHOL_FUEL,
});

const gasolineOctane = field('fuel.octane', 'ON');
const alcoholOctane = field('fuel.octane', 'ON', {
  from: { alcohol },
  compute: ({ alcohol }) => antiknockOfAlcohol(alcohol),
  because:
    'by the alcohol in the fuel: 99 AKI neat, US DOE Alternative Fuels Data Center; blends by volume, an estimate',
});

/** Octane, AKI, as the sheet says it, of whichever kind. */
export const statedOctane = optional(gasolineOctane);

/** Octane, AKI: of gasoline as the pump says, of alcohol fuels by their kind where it is not said. */
export const octane = choose({
  id: 'octane',
  from: { isAlcoholFuel },
  among: ({ isAlcoholFuel }) => (isAlcoholFuel ? alcoholOctane : gasolineOctane),
});

const warmDay = constant({
  symbol: 'T_1',
  name: 'air on a warm day',
  value: REFERENCE_AIR,
  dimension: 'temperature',
  assumed: 'common practice: the day the limits of the trade are meant for',
});

const warmAir = airOf('air-of-a-warm-day', lowPressure, warmDay);
const hotAir = airOf('air-of-a-hot-low-day', lowPressure, hottestDay);
const warmCharge = chargeOn('charge-on-a-warm-day', warmAir);
const hotCharge = chargeOn('charge-on-a-hot-low-day', hotAir);

const noCooling = fact({ id: 'no-nitrous-cooling', from: {}, compute: () => 0 });
const cooling = fact({
  id: 'nitrous-cooling',
  from: { nitrousFlow, airDemand },
  compute: ({ nitrousFlow, airDemand }) => nitrousCooling(nitrousFlow, airDemand),
});
const coolingByNitrous = choose({
  id: 'cooling-by-nitrous',
  from: { hasNitrous },
  among: ({ hasNitrous }) => (hasNitrous ? cooling : noCooling),
});

export const closingPressure = figure({
  id: 'charge-pressure-at-closing',
  symbol: 'p_0',
  name: 'pressure of the charge as the intake valve closes, at the lowest altitude',
  dimension: 'absolute-pressure',
  formula: 'p_m at full load',
  source: 'a blower on the crank keeps its pressure ratio, a turbo its boost: common practice',
  home: HOME,
  from: { kept: keptByInduction, boost, claimAir, air: lowPressure },
  compute: ({ kept, boost, claimAir, air }) =>
    chargeOf(kept, { boost, efficiency: 1, effectiveness: 0 }, claimAir, {
      pressure: air,
      dryPressure: air,
      temperature: REFERENCE_AIR,
    }).pressure,
});

const TEMPERATURE = {
  symbol: 'T_0',
  dimension: 'temperature',
  formula: 'T_m + 32 K - cooling by the fuel over that by gasoline - cooling by nitrous',
  source:
    'energy balance; heat from the walls, 0.4 of the fuel and half of the nitrous evaporating in the charge: common practice',
  home: HOME,
} as const;

const temperatureOf = (v: { charge: { temperature: number }; fuel: Fuel; lambda: number; coolingByNitrous: number }) =>
  chargeTemperatureOf({
    air: v.charge.temperature,
    fuel: v.fuel,
    lambda: v.lambda,
    nitrousCooling: v.coolingByNitrous,
  });

export const closingTemperature = figure({
  ...TEMPERATURE,
  id: 'charge-temperature-at-closing',
  name: 'temperature of the charge as the intake valve closes, in air of 25 degC',
  from: { charge: warmCharge, fuel: chemistry, lambda, coolingByNitrous },
  compute: temperatureOf,
});

export const closingTemperatureHottest = figure({
  ...TEMPERATURE,
  id: 'charge-temperature-at-closing-hottest-day',
  name: 'temperature of the charge as the intake valve closes, on the hottest day',
  from: { charge: hotCharge, fuel: chemistry, lambda, coolingByNitrous },
  compute: temperatureOf,
});

export const nitrousEnergy = figure({
  id: 'nitrous-energy-ratio',
  symbol: 'e',
  name: 'energy of a cycle with nitrous over that without',
  dimension: 'ratio-number',
  formula: '(P + P_n) / P',
  source: 'energy balance',
  home: ['stages.nitrous', 'stages'],
  notes: ['at peak-power speed: the slower the engine turns, the more nitrous each cycle gets'],
  when: hasNitrous,
  from: { stagePower, addedPower },
  compute: ({ stagePower, addedPower }) => nitrousEnergyRatio(stagePower, addedPower),
});

const noNitrous = fact({ id: 'energy-without-nitrous', from: {}, compute: () => 1 });
const energyRatio = choose({
  id: 'energy-of-a-cycle',
  from: { hasNitrous },
  among: ({ hasNitrous }) => (hasNitrous ? nitrousEnergy : noNitrous),
});

/** Logarithm of the knock integral by spark, at 3,000 rpm, for a temperature of the charge. */
function curveAt(id: string, temperature: Node<number>): Node<Curve> {
  return fact({
    id,
    from: { compressionRatio, intakeClosing, closingPressure, temperature, octane, energyRatio },
    compute: (v) =>
      knockCurve({
        compressionRatio: v.compressionRatio,
        closing: v.intakeClosing,
        pressure: v.closingPressure,
        temperature: v.temperature,
        octane: v.octane,
        energyRatio: v.energyRatio,
        speed: REFERENCE_SPEED,
      }),
  });
}

/** The knock integral by spark in air of 25 degC. */
const warmCurve = curveAt('knock-curve', closingTemperature);
/** The knock integral by spark on the hottest day. */
const hotCurve = curveAt('knock-curve-hottest-day', closingTemperatureHottest);

const notesFor = ({ isAlcoholFuel }: { isAlcoholFuel: boolean }) => [
  REFERENCE,
  ESTIMATE,
  ...(isAlcoholFuel ? [OUTSIDE] : []),
];

const INDEX = {
  symbol: 'K',
  dimension: 'ratio-number',
  formula: 'integral of dt / tau over that of the reference engine',
  source: MODEL,
  home: HOME,
  notes: notesFor,
} as const;

export const knockIndex = figure({
  ...INDEX,
  id: 'knock-index',
  name: 'relative knock index',
  from: { curve: warmCurve, fullLoadSpark, headMaterial, isAlcoholFuel },
  compute: (v) => indexOn(v.curve, v.fullLoadSpark, v.headMaterial),
});

export const knockIndexHottest = figure({
  ...INDEX,
  id: 'knock-index-hottest-day',
  name: 'relative knock index on the hottest day',
  from: { curve: hotCurve, fullLoadSpark, headMaterial, isAlcoholFuel },
  compute: (v) => indexOn(v.curve, v.fullLoadSpark, v.headMaterial),
});

const SPARK = {
  symbol: 'adv_k',
  dimension: 'angle',
  formula: 'the spark at which K is 1',
  source: MODEL,
  home: HOME,
} as const;

const limitNotes = ({ spark, limit }: LimitedSpark) =>
  limit === 'at'
    ? []
    : [
        limit === 'free'
          ? `no spark up to ${spark} deg reaches the limit`
          : `every spark down to ${spark} deg passes it`,
      ];

export const knockLimitedSpark = figure({
  ...SPARK,
  id: 'knock-limited-spark',
  name: 'knock-limited spark at full load, 3,000 rpm',
  notes: (v) => [...limitNotes(limitedSparkOn(v.curve, v.headMaterial)), ...notesFor(v)],
  from: { curve: warmCurve, headMaterial, isAlcoholFuel },
  compute: (v) => limitedSparkOn(v.curve, v.headMaterial).spark,
});

/** Speeds, rev/s, at which the limited spark is shown. */
const SPEEDS = [1500, 2000, 2500, 3000, 4000, 5000, 6000].map((rpm) => rpm / 60);

/** Knock-limited spark on the hottest day by speed, rev/s and degrees before top dead center. */
export const limitedSparkOverSpeed = fact({
  id: 'limited-spark-over-speed',
  from: { curve: hotCurve, headMaterial },
  compute: ({ curve, headMaterial }) =>
    SPEEDS.map((speed) => ({
      speed,
      ...limitedSparkOn(curve, headMaterial, usualBurn, { faster: speed / REFERENCE_SPEED }),
    })),
});

/** Speed, rev/s, below which no engine is held at full load long enough to be limited by it: the limit of here holds. */
const SLOWEST = SPEEDS[0] as number;

/** Knock-limited spark on the hottest day at any speed, rev/s, and share of the manifold pressure of full load. */
export const limitedSparkAtLoad = fact({
  id: 'limited-spark-at-load',
  from: { curve: hotCurve, headMaterial },
  compute:
    ({ curve, headMaterial }) =>
    (speed: number, share: number): number =>
      limitedSparkOn(curve, headMaterial, usualBurn, {
        faster: Math.max(speed, SLOWEST) / REFERENCE_SPEED,
        most: indexAtShare(share),
      }).spark,
});

export const knockLimitedSparkHottest = figure({
  ...SPARK,
  id: 'knock-limited-spark-hottest-day',
  name: 'knock-limited spark at full load on the hottest day, 3,000 rpm',
  notes: (v) => [
    v.overSpeed
      .map(({ speed, spark }) => `${formatValue(speed, 'rotational-speed', 'us')} ${inRange(spark)}`)
      .join(', '),
    ...notesFor(v),
  ],
  from: { curve: hotCurve, overSpeed: limitedSparkOverSpeed, headMaterial, isAlcoholFuel },
  compute: (v) => limitedSparkOn(v.curve, v.headMaterial).spark,
});

function inRange(spark: number): string {
  if (spark >= sparkRange.earliest) return `over ${spark} deg`;
  return `${Math.floor(spark)} deg`;
}

const nitrousAtFullLoad = fact({
  id: 'nitrous-at-full-load',
  from: { power: addedPower, flow: nitrousFlow, retard: retardForNitrous, enginePower: stagePower, airFlow: airDemand },
  compute: (values): FullLoad['nitrous'] => values,
});
const withoutNitrous = fact({
  id: 'full-load-without-nitrous',
  from: {},
  compute: (): FullLoad['nitrous'] => undefined,
});

/** All that decides knock at full load, in air of 25 degC. */
export const fullLoad = fact({
  id: 'full-load',
  from: {
    compressionRatio,
    closing: intakeClosing,
    octane,
    kept: keptByInduction,
    charger,
    claim: claimAir,
    air: warmAir,
    fuel: chemistry,
    lambda,
    nitrous: choose({
      id: 'nitrous-at-full-load-or-none',
      from: { hasNitrous },
      among: ({ hasNitrous }) => (hasNitrous ? nitrousAtFullLoad : withoutNitrous),
    }),
    advance: fullAdvance,
    retardPerBoost,
  },
  compute: (values): FullLoad => values,
});

/** The same on the hottest day. */
export const fullLoadHottest = fact({
  id: 'full-load-hottest-day',
  from: { fullLoad, air: hotAir },
  compute: ({ fullLoad, air }): FullLoad => ({ ...fullLoad, air }),
});
