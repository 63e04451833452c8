import { fuelDemandByAir, powerSupported } from '../engineering/demand.ts';
import { idleAirFlow, smallestFlow } from '../engineering/idle.ts';
import {
  dischargePressure as dischargePressureOf,
  flowAtDuty,
  pressureAcross,
  pulseWidth,
  railPressure,
  staticFlow,
} from '../engineering/injectors.ts';
import { sitePressure } from './air.ts';
import { specificConsumption } from './demand.ts';
import { displacement, idleManifoldPressure, idleSpeed, redline } from './engine.ts';
import { chemistry, stoichiometric } from './fuel.ts';
import { injectorFlow, regulatorPressure, regulatorReference } from './full-load-injection.ts';
import { stagePower } from './induction.ts';
import {
  INJECTORS_HOME as BRIEF,
  deadTime,
  dischargePlace,
  dutyLimit,
  INJECTION_HOME as HOME,
  injection,
  injectorCount,
  pulsesPerCycle,
  ratedFlow,
  ratedPressure,
  shortestPulse,
} from './injectors.ts';
import { choose, constant, fact, figure } from './node.ts';

export const idleAir = figure({
  id: 'idle-air',
  symbol: 'm_a,i',
  name: 'air at idle',
  dimension: 'mass-flow',
  formula: 'V_d * N_i / 2 * 0.5 * p_i / (R * 313 K)',
  source: 'Heywood, eq. 2.27; volumetric efficiency 0.5 and 40 degC at idle are common practice',
  home: HOME,
  from: { displacement, idleSpeed, idleManifoldPressure },
  compute: ({ displacement, idleSpeed, idleManifoldPressure }) =>
    idleAirFlow({ displacement, speed: idleSpeed, manifoldPressure: idleManifoldPressure }),
});

export const idleFuel = figure({
  id: 'idle-fuel',
  symbol: 'm_f,i',
  name: 'fuel at idle',
  dimension: 'mass-flow',
  formula: 'm_a,i / AFR_st',
  source: 'Heywood, eq. 3.9, lambda 1',
  home: HOME,
  from: { idleAir, stoichiometric, fuel: chemistry },
  compute: ({ idleAir, fuel }) => fuelDemandByAir(idleAir, 1, fuel),
});

const noVacuum = constant({
  symbol: 'v_i',
  name: 'vacuum that acts on the injector',
  value: 0,
  dimension: 'pressure',
  assumed: 'above the throttle plates',
});

/** How far the manifold is below the air outside at idle, Pa, negative when it is: gauge pressure. */
export const idleManifoldGauge = fact({
  id: 'idle-manifold-gauge',
  from: { idleManifoldPressure, sitePressure },
  compute: ({ idleManifoldPressure, sitePressure }) => idleManifoldPressure - sitePressure,
});

/** Gauge pressure the regulator refers to at idle, Pa. */
export const idleReference = choose({
  id: 'idle-reference',
  from: { regulatorReference },
  among: ({ regulatorReference }) => (regulatorReference === 'manifold' ? idleManifoldGauge : noVacuum),
});

/** Gauge pressure where the injectors discharge at idle, Pa. */
const idleTip = choose({
  id: 'idle-tip',
  from: { dischargePlace },
  among: ({ dischargePlace }) => (dischargePlace === 'above-throttle' ? noVacuum : idleManifoldGauge),
});

export const idleInjectorFlow = figure({
  id: 'idle-injector-flow',
  symbol: 'm_s,i',
  name: 'static flow of one injector at idle',
  dimension: 'injector-flow',
  formula: ({ dischargePlace }) =>
    dischargePlace === 'above-throttle'
      ? 'm_rated * sqrt(p_rail / p_rated)'
      : 'm_rated * sqrt((p_rail + p_a - p_i) / p_rated)',
  source: 'orifice equation (Bernoulli)',
  home: BRIEF,
  from: { ratedFlow, ratedPressure, regulatorPressure, dischargePlace, idleReference, idleTip },
  compute: (v) => {
    const rail = railPressure(v.regulatorPressure, STANDARD + v.idleReference, STANDARD);
    const tip = dischargePressureOf({
      place: v.dischargePlace,
      path: 'natural',
      boost: 0,
      manifoldPressure: STANDARD + v.idleTip,
      ambient: STANDARD,
    });
    return staticFlow(v.ratedFlow, v.ratedPressure, pressureAcross(rail, STANDARD, tip));
  },
});

/** Any air pressure, Pa: only differences from it count. */
const STANDARD = 101325;

export const idlePulse = figure({
  id: 'idle-pulse',
  symbol: 't_i',
  name: 'pulse at idle',
  dimension: 'time',
  formula: 'm_f,i / n / m_s,i * 2 / (k N_i) + t_d, k pulses per cycle',
  source: 'kinematics of the four-stroke cycle',
  home: ['throttle-body.injectors', 'throttle-body', 'stages', 'engine.idle'],
  from: { idleFuel, injectorCount, idleInjectorFlow, deadTime, idleSpeed, pulsesPerCycle },
  compute: (v) =>
    pulseWidth(v.idleFuel / v.injectorCount, injection(v.idleInjectorFlow, v.deadTime, v.idleSpeed, v.pulsesPerCycle)),
});

export const idlePulseMargin = figure({
  id: 'idle-pulse-margin',
  symbol: 'k_i',
  name: 'pulse at idle over the shortest repeatable pulse',
  dimension: 'ratio-number',
  formula: 't_i / t_min',
  source: 'definition',
  home: HOME,
  from: { idlePulse, shortestPulse },
  compute: ({ idlePulse, shortestPulse }) => idlePulse / shortestPulse,
});

const COVERED_SOURCE =
  'kinematics of the four-stroke cycle; fuel at idle in proportion to power: common practice' as const;

export const powerCoveredHigh = figure({
  id: 'power-covered-high',
  symbol: 'P_max',
  name: 'most power these injectors cover',
  dimension: 'power',
  formula: 'n m_s (limit - t_d k N_r / 2) / BSFC',
  source: COVERED_SOURCE,
  home: HOME,
  from: { injectorCount, injectorFlow, deadTime, redline, pulsesPerCycle, dutyLimit, specificConsumption },
  compute: (v) => {
    const each = flowAtDuty(v.dutyLimit, injection(v.injectorFlow, v.deadTime, v.redline, v.pulsesPerCycle));
    return powerSupported(v.injectorCount * each, v.specificConsumption);
  },
});

export const powerCoveredLow = figure({
  id: 'power-covered-low',
  symbol: 'P_min',
  name: 'least power these injectors cover',
  dimension: 'power',
  formula: 'P * fuel at the shortest pulse / fuel at idle',
  source: COVERED_SOURCE,
  home: HOME,
  from: { injectorCount, idleInjectorFlow, deadTime, idleSpeed, pulsesPerCycle, shortestPulse, idleFuel, stagePower },
  compute: (v) => {
    const idling = injection(v.idleInjectorFlow, v.deadTime, v.idleSpeed, v.pulsesPerCycle);
    return (v.stagePower * v.injectorCount * smallestFlow(v.shortestPulse, idling)) / v.idleFuel;
  },
});
