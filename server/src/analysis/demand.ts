import { engineVolumeFlow } from '../engineering/air.ts';
import {
  airDemand as airDemandOf,
  brakeMeanEffectivePressure,
  brakeThermalEfficiency,
  defaultBsfc,
  demandDisagreement as demandDisagreementOf,
  fuelDemandByAir,
  fuelDemandByPower,
  impliedVolumetricEfficiency as impliedVolumetricEfficiencyOf,
  inductionDefaults,
  torqueOfPower,
} from '../engineering/demand.ts';
import { intakeDensity } from './boost.ts';
import { displacement, peakPowerSpeed } from './engine.ts';
import { chemistry, energy, grade, stoichiometric } from './fuel.ts';
import { induction } from './induction.ts';
import { field, figure } from './node.ts';
import { fullPower, stagePower } from './power.ts';

const STAGE = ['stages'] as const;
const STAGE_AND_ENGINE = ['stages', 'engine'] as const;

export const specificConsumption = field('stages.specific-consumption', 'BSFC', {
  from: { induction, fuel: chemistry },
  compute: ({ induction, fuel }) => defaultBsfc(induction, fuel).usual,
  because: ({ induction }) =>
    `common practice for ${induction} induction on gasoline, scaled to this fuel by stoichiometric ratio: the same power from equal air`,
});

export const lambda = field('stages.lambda', 'lambda', {
  from: { induction },
  compute: ({ induction }) => inductionDefaults[induction].lambda.usual,
  because: ({ induction }) => `common practice for ${induction} induction at full load`,
});

export const volumetricEfficiency = field('engine.volumetric-efficiency', 'VE', {
  value: inductionDefaults.natural.volumetricEfficiency.usual,
  because: 'common practice',
});

export const demandByPower = figure({
  id: 'demand-by-power',
  symbol: 'm_f',
  name: 'fuel demand by power',
  dimension: 'mass-flow',
  formula: 'P * BSFC',
  source: 'definition of BSFC; Heywood (1988), eq. 2.22',
  home: STAGE,
  from: { stagePower, specificConsumption },
  compute: ({ stagePower, specificConsumption }) => fuelDemandByPower(stagePower, specificConsumption),
});

export const airByVolume = figure({
  id: 'air-by-volume',
  symbol: 'm_a',
  name: 'air mass flow by displacement',
  dimension: 'mass-flow',
  formula: 'V_d * N_p / 2 * VE * rho_m',
  source: 'Heywood (1988), eq. 2.27; trade form cfm = cid * rpm * VE / 3456',
  home: STAGE,
  from: { displacement, peakPowerSpeed, volumetricEfficiency, intakeDensity },
  compute: (v) => engineVolumeFlow(v.displacement, v.peakPowerSpeed, v.volumetricEfficiency) * v.intakeDensity,
});

export const demandByAir = figure({
  id: 'demand-by-air',
  symbol: 'm_f,air',
  name: 'fuel demand by air',
  dimension: 'mass-flow',
  formula: 'm_a / (lambda * AFR_st)',
  source: 'Heywood (1988), eq. 3.9',
  home: STAGE,
  from: { airByVolume, lambda, stoichiometric, fuel: chemistry },
  compute: ({ airByVolume, lambda, fuel }) => fuelDemandByAir(airByVolume, lambda, fuel),
});

export const demandDisagreement = figure({
  id: 'demand-disagreement',
  symbol: 'd',
  name: 'demand by power over demand by air',
  dimension: 'ratio',
  formula: '(m_f - m_f,air) / mean',
  source: 'definition',
  home: STAGE,
  notes: ['a large figure means that the power claim, the displacement or the speed does not fit the others'],
  from: { demandByPower, demandByAir },
  compute: ({ demandByPower, demandByAir }) => demandDisagreementOf(demandByPower, demandByAir),
});

export const airDemand = figure({
  id: 'air-demand',
  symbol: 'm_a,P',
  name: 'air the claimed power needs',
  dimension: 'mass-flow',
  formula: 'm_f * lambda * AFR_st',
  source: 'Heywood (1988), eq. 3.9',
  home: ['stages', 'throttle-body'],
  from: { demandByPower, lambda, stoichiometric, fuel: chemistry },
  compute: ({ demandByPower, lambda, fuel }) => airDemandOf(demandByPower, lambda, fuel),
});

export const meanEffectivePressure = figure({
  id: 'mean-effective-pressure',
  symbol: 'BMEP',
  name: 'brake mean effective pressure',
  dimension: 'pressure',
  formula: '2 P / (V_d N_p), P with nitrous',
  source: 'Heywood (1988), eq. 2.19a',
  home: STAGE_AND_ENGINE,
  from: { fullPower, displacement, peakPowerSpeed },
  compute: (v) => brakeMeanEffectivePressure(v.fullPower, v.displacement, v.peakPowerSpeed),
});

export const torque = figure({
  id: 'torque',
  symbol: 'M',
  name: 'torque at peak-power speed',
  dimension: 'torque',
  formula: 'P / (2 pi N_p), P with nitrous',
  source: 'Heywood (1988), eq. 2.13',
  home: STAGE_AND_ENGINE,
  from: { fullPower, peakPowerSpeed },
  compute: ({ fullPower, peakPowerSpeed }) => torqueOfPower(fullPower, peakPowerSpeed),
});

export const thermalEfficiency = figure({
  id: 'thermal-efficiency',
  symbol: 'eta_b',
  name: 'brake thermal efficiency the fuel demand implies',
  dimension: 'ratio',
  formula: '1 / (BSFC * LHV)',
  source: 'Heywood (1988), eq. 2.24',
  home: STAGE,
  from: { specificConsumption, grade, fuel: energy },
  compute: ({ specificConsumption, fuel }) => brakeThermalEfficiency(specificConsumption, fuel),
});

export const impliedVolumetricEfficiency = figure({
  id: 'implied-volumetric-efficiency',
  symbol: 'VE_P',
  name: 'volumetric efficiency the claim implies',
  dimension: 'ratio',
  formula: 'm_a,P / (V_d N_p / 2 * rho_m)',
  source: 'Heywood (1988), eq. 2.27',
  home: STAGE_AND_ENGINE,
  notes: ['referred to the density in the manifold'],
  from: { airDemand, displacement, peakPowerSpeed, intakeDensity },
  compute: (v) => impliedVolumetricEfficiencyOf(v.airDemand, v.displacement, v.peakPowerSpeed, v.intakeDensity),
});
