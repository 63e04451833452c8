import { engineVolumeFlow } from '../engineering/air.ts';
import {
  ADIABATIC_EFFICIENCY,
  boostedPower,
  compressorOutletTemperature,
  compressorPower,
  densityRatio as densityRatioOf,
  highestManifoldPressure,
  intercoolerOutletTemperature,
  pressureRatio as pressureRatioOf,
  referencePlace,
} from '../engineering/boost.ts';
import { type ClaimCondition, crankPower } from '../engineering/claim.ts';
import type { StageSheet } from '../sheet/stages.ts';
import { hottestDay, lowPressure, sitePressure } from './air.ts';
import { claimDensity, powerCondition } from './claim.ts';
import { displacement, peakPowerSpeed } from './engine.ts';
import { isKnown } from './figure.ts';
import { induction, inductionPath, isBoosted } from './induction.ts';
import { choose, constant, fact, field, figure, reading } from './node.ts';

const STAGE = ['stages'] as const;

const noBoost = constant({
  symbol: 'p_b',
  name: 'boost',
  value: 0,
  dimension: 'pressure',
  assumed: 'natural induction',
});
const boostField = field('stages.boost', 'p_b');

/** Boost in the manifold, none without a blower. */
export const boost = choose({
  id: 'boost',
  from: { isBoosted },
  among: ({ isBoosted }) => (isBoosted ? boostField : noBoost),
});

export const compressorEfficiency = field('stages.compressor-efficiency', 'eta', {
  from: { induction },
  compute: ({ induction }) => (induction === 'natural' ? 1 : ADIABATIC_EFFICIENCY[induction]),
  because: 'common practice for this kind of blower',
});
export const intercooling = field('stages.intercooler-effectiveness', 'eps', { value: 0, because: 'no intercooler' });

export const pressureRatio = figure({
  id: 'pressure-ratio',
  symbol: 'PR',
  name: 'pressure ratio of the blower',
  dimension: 'ratio-number',
  formula: '(p_a + p_b) / p_a',
  source: 'definition; the loss of air cleaner and throttle body is left out',
  home: STAGE,
  when: isBoosted,
  from: { sitePressure, boost },
  compute: ({ sitePressure, boost }) => pressureRatioOf(boost, sitePressure),
});

export const blowerOutletTemperature = figure({
  id: 'blower-outlet-temperature',
  symbol: 'T_2',
  name: 'temperature behind the blower on the hottest day',
  dimension: 'temperature',
  formula: 'T_1 (1 + (PR^((g-1)/g) - 1) / eta)',
  source: 'Heywood (1988), eq. 6.42',
  home: STAGE,
  when: isBoosted,
  from: { hottestDay, pressureRatio, compressorEfficiency },
  compute: ({ hottestDay, pressureRatio, compressorEfficiency }) =>
    compressorOutletTemperature(hottestDay, pressureRatio, compressorEfficiency),
});

export const chargeTemperature = figure({
  id: 'charge-temperature',
  symbol: 'T_m',
  name: 'charge temperature on the hottest day',
  dimension: 'temperature',
  formula: 'T_2 - eps (T_2 - T_day)',
  source: 'definition of heat-exchanger effectiveness',
  home: STAGE,
  when: isBoosted,
  from: { blowerOutletTemperature, hottestDay, intercooling },
  compute: ({ blowerOutletTemperature, hottestDay, intercooling }) =>
    intercoolerOutletTemperature(blowerOutletTemperature, hottestDay, intercooling),
});

export const densityRatio = figure({
  id: 'density-ratio',
  symbol: 'DR',
  name: 'density ratio of the charge',
  dimension: 'ratio-number',
  formula: 'PR * T_1 / T_m',
  source: 'ideal gas',
  home: STAGE,
  when: isBoosted,
  from: { pressureRatio, hottestDay, chargeTemperature },
  compute: ({ pressureRatio, hottestDay, chargeTemperature }) =>
    densityRatioOf(pressureRatio, hottestDay, chargeTemperature),
});

export const chargeDensity = figure({
  id: 'charge-density',
  symbol: 'rho_m',
  name: 'charge density in the manifold',
  dimension: 'air-density',
  formula: 'rho_a * DR',
  source: 'ideal gas',
  home: STAGE,
  when: isBoosted,
  from: { claimDensity, densityRatio },
  compute: ({ claimDensity, densityRatio }) => claimDensity * densityRatio,
});

export const manifoldPressure = figure({
  id: 'manifold-pressure',
  symbol: 'p_m',
  name: 'absolute manifold pressure at full boost',
  dimension: 'absolute-pressure',
  formula: 'p_a + p_b',
  source: 'definition of gauge pressure',
  home: STAGE,
  when: isBoosted,
  from: { sitePressure, boost },
  compute: ({ sitePressure, boost }) => sitePressure + boost,
});

/** Density of what the cylinders take in where the claim holds, kg/m3: of the air itself without a blower. */
export const intakeDensity = choose({
  id: 'intake-density',
  from: { isBoosted },
  among: ({ isBoosted }) => (isBoosted ? chargeDensity : claimDensity),
});

/** Temperature of what the cylinders take in on the hottest day, K. */
export const intakeTemperature = choose({
  id: 'intake-temperature',
  from: { isBoosted },
  among: ({ isBoosted }) => (isBoosted ? chargeTemperature : hottestDay),
});

/** Absolute pressure in the manifold at full load, Pa. */
export const intakePressure = choose({
  id: 'intake-pressure',
  from: { isBoosted },
  among: ({ isBoosted }) => (isBoosted ? manifoldPressure : sitePressure),
});

/** Which stage is the last one without a blower: its number and name, and for what its power holds. */
const naturalStage = reading<string>(
  'natural-stage',
  ({ stage: { natural } }) => [natural?.index, natural?.name, natural?.['power-at'], conditionOf(natural)].join(' '),
  ({ source: { stage } }) => ({ value: stage.natural?.name ?? 'before the blower', terms: [] }),
);

function conditionOf(stage: StageSheet['natural']): ClaimCondition {
  return stage?.['power-condition'] ?? 'as-driven';
}

/** Power of the last stage without a blower at the crank, where it holds for the same air as that of this stage. */
export const naturalPower = reading<number>(
  'natural-power',
  ({ stage }) => stage.natural?.power,
  (sight) => {
    const { natural } = sight.source.stage;
    const [named, condition] = [sight.see(naturalStage), sight.see(powerCondition)];
    if (!natural?.power || !isKnown(named) || !isKnown(condition) || condition.value !== conditionOf(natural))
      return { lacks: [], moot: true };
    const stated = sight.pick(natural.power);
    const value = natural['power-at'] === 'wheels' ? crankPower(stated) : stated;
    const term = {
      symbol: 'P_nat',
      name: `power of stage ${named.value}`,
      value,
      dimension: 'power' as const,
      field: ['stages', natural.index, 'power'],
    };
    return { value, terms: [term] };
  },
);

/** Volumetric efficiency the drive power is computed with. Common practice. */
const DRIVE_VOLUMETRIC_EFFICIENCY = 0.85;

const beltPower = fact({
  id: 'belt-power',
  from: { hottestDay, blowerOutletTemperature, chargeDensity, displacement, peakPowerSpeed },
  compute: (v) =>
    compressorPower(
      engineVolumeFlow(v.displacement, v.peakPowerSpeed, DRIVE_VOLUMETRIC_EFFICIENCY) * v.chargeDensity,
      v.hottestDay,
      v.blowerOutletTemperature,
    ),
});

const noBeltPower = fact({ id: 'no-belt-power', from: {}, compute: () => 0 });

/** Power that driving the blower takes from the crank, W; a turbine takes none from there. */
export const drivePower = choose({
  id: 'drive-power',
  from: { induction },
  among: ({ induction }) => (induction === 'turbo' ? noBeltPower : beltPower),
});

/** What the last natural stage's power would become with this stage's charge, less what a belt takes. */
export const boostedPowerEstimate = figure({
  id: 'boosted-power',
  symbol: 'P_est',
  name: 'power to expect from the natural figure',
  dimension: 'power',
  formula: ({ drive }) => (drive > 0 ? 'P_nat * DR - m_air c_p (T_2 - T_1)' : 'P_nat * DR'),
  source: 'common practice: power follows charge density; drive power: first law, Heywood (1988), eq. 6.43',
  notes: ['an estimate; a turbine takes its power from the exhaust, which is left out'],
  home: STAGE,
  when: isBoosted,
  from: {
    naturalPower,
    densityRatio,
    drive: drivePower,
  },
  compute: ({ naturalPower, densityRatio, drive }) => boostedPower(naturalPower, densityRatio, drive),
});

export const sensorPressure = figure({
  id: 'sensor-pressure',
  symbol: 'p_max',
  name: 'highest absolute pressure the sensor must read',
  dimension: 'absolute-pressure',
  formula: 'p_low + p_b',
  source: 'ISO 2533:1975; definition of gauge pressure',
  home: ['sensors.manifold-pressure', 'stages'],
  notes: ({ induction, inductionPath }) => [`take the reference from ${referencePlace(induction, inductionPath)}`],
  from: { lowPressure, boost, induction, inductionPath },
  compute: ({ lowPressure, boost }) => highestManifoldPressure(boost, lowPressure),
});
