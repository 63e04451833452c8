import { powerSupported } from '../engineering/demand.ts';
import { smallestFlow } from '../engineering/idle.ts';
import {
  dischargePressure as dischargePressureOf,
  flowAtDuty,
  pressureAcross,
  pulseWidth,
  staticFlow,
} from '../engineering/injectors.ts';
import { specificConsumption } from './demand.ts';
import { idleSpeed, redline } from './engine.ts';
import { injectorFlow } from './full-load-injection.ts';
import { idleFuel, idleManifoldGauge } from './idle.ts';
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
import { choose, constant, figure } from './node.ts';
import { stagePower } from './power.ts';
import { idleRailAtInjectors } from './supply.ts';

const noVacuum = constant({
  symbol: 'v_i',
  name: 'vacuum that acts on the injector',
  value: 0,
  dimension: 'pressure',
  assumed: 'above the throttle plates',
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
  from: { ratedFlow, ratedPressure, idleRailAtInjectors, dischargePlace, idleTip },
  compute: (v) => {
    const tip = dischargePressureOf({
      place: v.dischargePlace,
      path: 'natural',
      boost: 0,
      manifoldPressure: STANDARD + v.idleTip,
      ambient: STANDARD,
    });
    return staticFlow(v.ratedFlow, v.ratedPressure, pressureAcross(v.idleRailAtInjectors, STANDARD, tip));
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
  home: ['throttle-body.injectors', 'throttle-body', 'stages', 'engine.idle', 'measured.idle-pulse-width'],
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
