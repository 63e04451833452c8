import {
  type DischargePlace,
  dischargePressure as dischargePressureOf,
  duty,
  type InductionPath,
  pressureAcross,
  pressureForFlow,
  requiredStaticFlow as requiredStaticFlowOf,
  staticFlow,
} from '../engineering/injectors.ts';
import { type TorqueCurve, torqueAt } from '../engineering/torque-curve.ts';
import { formatValue } from '../units/format.ts';
import { sitePressure } from './air.ts';
import { boost } from './boost.ts';
import { highestSpeed, idleSpeed, peakPowerSpeed, redline } from './engine.ts';
import { inductionPath } from './induction.ts';
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
} from './injectors.ts';
import { injectorDemand } from './nitrous.ts';
import { choose, constant, fact, figure } from './node.ts';
import { railAtInjectors } from './supply.ts';
import { measuredTorque } from './torque.ts';

/** Any air pressure, Pa: only differences from it count. */
const STANDARD = 101325;

const noTipBoost = constant({
  symbol: 'p_b',
  name: 'boost where the injectors discharge',
  value: 0,
  dimension: 'pressure',
  assumed: 'boost reaches the throttle body only in a blow-through',
});

/** Gauge pressure where the injectors discharge at full load, Pa: boost only where the blower blows into the body. */
const tipBoost = choose({
  id: 'tip-boost',
  from: { inductionPath },
  among: ({ inductionPath }) => (inductionPath === 'blow-through' ? boost : noTipBoost),
});

export const dischargePressure = figure({
  id: 'discharge-pressure',
  symbol: 'p_tip',
  name: 'absolute pressure where the injectors discharge, at full load',
  dimension: 'absolute-pressure',
  formula: ({ dischargePlace, inductionPath }) => dischargeFormula(dischargePlace, inductionPath),
  source: 'pressure balance; above the plates there is boost only in a blow-through',
  home: BRIEF,
  from: { sitePressure, dischargePlace, inductionPath, tipBoost },
  compute: ({ sitePressure, dischargePlace, inductionPath, tipBoost }) =>
    dischargePressureOf({
      place: dischargePlace,
      path: inductionPath,
      boost: tipBoost,
      manifoldPressure: sitePressure + tipBoost,
      ambient: sitePressure,
    }),
});

function dischargeFormula(place: DischargePlace, path: InductionPath): string {
  if (place === 'above-throttle') return path === 'blow-through' ? 'p_a + p_b' : 'p_a';
  return path === 'draw-through' ? 'min(p_m, p_a)' : 'p_m';
}

export const injectorPressure = figure({
  id: 'injector-pressure',
  symbol: 'dp',
  name: 'pressure across the injector at full load',
  dimension: 'pressure',
  formula: 'p_rail + p_a - p_tip',
  source: 'pressure balance; the gauge pressure at the tip counts',
  home: HOME,
  from: { railAtInjectors, tipBoost },
  compute: ({ railAtInjectors, tipBoost }) => pressureAcross(railAtInjectors, STANDARD, STANDARD + tipBoost),
});

export const injectorFlow = figure({
  id: 'injector-flow',
  symbol: 'm_s',
  name: 'static flow of one injector at that pressure',
  dimension: 'injector-flow',
  formula: 'm_rated * sqrt(dp / p_rated)',
  source: 'orifice equation (Bernoulli)',
  home: HOME,
  from: { ratedFlow, ratedPressure, injectorPressure },
  compute: ({ ratedFlow, ratedPressure, injectorPressure }) => staticFlow(ratedFlow, ratedPressure, injectorPressure),
});

export const demandPerInjector = figure({
  id: 'demand-per-injector',
  symbol: 'm_i',
  name: 'fuel demand per injector',
  dimension: 'mass-flow',
  formula: 'm_f / n',
  source: 'mass balance',
  home: BRIEF,
  from: { injectorDemand, injectorCount },
  compute: ({ injectorDemand, injectorCount }) => injectorDemand / injectorCount,
});

export const dutyAtPeakPower = figure({
  id: 'duty-peak-power',
  symbol: 'D_p',
  name: 'duty cycle at peak-power speed',
  dimension: 'ratio',
  formula: 'm_i / m_s + t_d * k * N_p / 2, k pulses per cycle',
  source: 'kinematics of the four-stroke cycle',
  home: ['throttle-body.injectors', 'throttle-body', 'stages', 'engine.peak-power-speed'],
  from: { demandPerInjector, injectorFlow, deadTime, peakPowerSpeed, pulsesPerCycle },
  compute: (v) => duty(v.demandPerInjector, injection(v.injectorFlow, v.deadTime, v.peakPowerSpeed, v.pulsesPerCycle)),
});

export const dutyAtRedline = figure({
  id: 'duty-redline',
  symbol: 'D_r',
  name: 'duty cycle at redline',
  dimension: 'ratio',
  formula: 'm_i / m_s + t_d * k * N_r / 2, k pulses per cycle',
  source: 'kinematics of the four-stroke cycle',
  home: HOME,
  notes: ['the fuel at redline is taken as that at peak power, on the safe side'],
  from: { demandPerInjector, injectorFlow, deadTime, redline, pulsesPerCycle },
  compute: (v) => duty(v.demandPerInjector, injection(v.injectorFlow, v.deadTime, v.redline, v.pulsesPerCycle)),
});

/** Steps of the speed range at which the duty is computed. */
const SPEEDS = 8;

/** Fuel at full load at a speed over that at peak power: by the torque curve; torque flat up to peak power without one. */
function fuelShare(speed: number, peakPowerSpeed: number, curve: TorqueCurve | undefined): number {
  if (speed >= peakPowerSpeed) return 1;
  const share = speed / peakPowerSpeed;
  return curve ? (share * torqueAt(curve, speed).torque) / torqueAt(curve, peakPowerSpeed).torque : share;
}

/** Duty at some speeds from idle to redline, fuel flat beyond peak power. */
export const dutyOverSpeed = fact({
  id: 'duty-over-speed',
  from: {
    demandPerInjector,
    injectorFlow,
    deadTime,
    idleSpeed,
    peakPowerSpeed,
    redline,
    pulsesPerCycle,
    measuredTorque,
  },
  compute: (v) =>
    Array.from({ length: SPEEDS + 1 }, (_, step) => {
      const speed = v.idleSpeed + ((v.redline - v.idleSpeed) * step) / SPEEDS;
      const fuel = v.demandPerInjector * fuelShare(speed, v.peakPowerSpeed, v.measuredTorque);
      return { speed, duty: duty(fuel, injection(v.injectorFlow, v.deadTime, speed, v.pulsesPerCycle)) };
    }),
});

export const highestDuty = figure({
  id: 'duty-highest',
  symbol: 'D_max',
  name: 'highest duty cycle over the whole speed range at full load',
  dimension: 'ratio',
  formula: ({ measuredTorque }) =>
    measuredTorque
      ? 'max of m_i a / m_s + t_d k N / 2 from N_i to N_r, a = T N / (T_p N_p) up to N_p, 1 beyond'
      : 'max of m_i min(1, N / N_p) / m_s + t_d k N / 2 from N_i to N_r',
  source: ({ measuredTorque }) =>
    measuredTorque
      ? 'kinematics; fuel by the torque curve up to peak power and flat beyond: common practice'
      : 'kinematics; torque flat up to peak power and fuel flat beyond: common practice',
  home: BRIEF,
  notes: ({ dutyOverSpeed }) => [
    dutyOverSpeed
      .map(({ speed, duty }) => `${formatValue(speed, 'rotational-speed', 'us')} ${formatValue(duty, 'ratio', 'us')}`)
      .join(', '),
  ],
  from: { dutyOverSpeed, measuredTorque },
  compute: ({ dutyOverSpeed }) => Math.max(...dutyOverSpeed.map(({ duty }) => duty)),
});

export const requiredStaticFlow = figure({
  id: 'required-static-flow',
  symbol: 'm_s,req',
  name: 'static flow each injector needs at the duty limit',
  dimension: 'injector-flow',
  formula: 'm_i / (limit - t_d * k * N / 2) at the higher of N_p and N_r',
  source: 'kinematics of the four-stroke cycle; duty limit common practice',
  home: HOME,
  from: { demandPerInjector, dutyLimit, deadTime, highestSpeed, pulsesPerCycle },
  compute: ({ demandPerInjector, dutyLimit, deadTime, highestSpeed, pulsesPerCycle }) =>
    requiredStaticFlowOf(demandPerInjector, dutyLimit, { deadTime, speed: highestSpeed, pulsesPerCycle }),
});

export const pressureForRequiredFlow = figure({
  id: 'pressure-for-required-flow',
  symbol: 'dp_req',
  name: 'pressure across these injectors that would give the required flow',
  dimension: 'pressure',
  formula: 'p_rated * (m_s,req / m_rated)^2',
  source: 'orifice equation (Bernoulli)',
  home: BRIEF,
  notes: ['ask whether pump, hoses and injectors stand that pressure before raising it'],
  from: { requiredStaticFlow, ratedFlow, ratedPressure },
  compute: ({ requiredStaticFlow, ratedFlow, ratedPressure }) =>
    pressureForFlow(requiredStaticFlow, ratedFlow, ratedPressure),
});
