import {
  type DischargePlace,
  dischargePressure,
  duty,
  pressureAcross,
  pressureForFlow,
  pulsesPerCycle,
  railPressure,
  requiredStaticFlow,
  staticFlow,
} from '../engineering/injectors.ts';
import { formatValue } from '../units/format.ts';
import type { AirTerms } from './air.ts';
import { isKnown, type Maybe, numberOf } from './figure.ts';
import {
  INJECTORS_HOME as BRIEF,
  dutyLimit,
  INJECTION_HOME as HOME,
  type Injectors,
  injection,
  injectorChoices,
} from './injector-terms.ts';
import type { Worksheet } from './worksheet.ts';

/** Static flow of one injector at the pressure across it at full load. */
export function fullLoadFlow(w: Worksheet, injectors: Injectors, air: AirTerms): Maybe {
  const { place } = injectorChoices(w);
  const setting = w.given('fuel-system.regulator.pressure', 'p_set');
  const reference = w.stage.values['fuel-system']?.regulator?.reference ?? 'atmosphere';
  const referenceTerm = w.choice('fuel-system.regulator.reference', 'reference', reference);
  const rail = w.figure(
    {
      id: 'rail-pressure-set',
      symbol: 'p_rail',
      name: 'rail pressure the regulator holds at full load',
      dimension: 'pressure',
      formula: reference === 'manifold' ? 'p_set + p_m - p_a' : 'p_set',
      source: 'pressure balance on the diaphragm',
      home: [...BRIEF, 'fuel-system.regulator'],
    },
    [setting, air.manifoldPressure, air.ambient, referenceTerm],
    (set, manifold, ambient) => railPressure(set, reference === 'manifold' ? manifold : ambient, ambient),
  );
  const pathTerm = w.choice('stage.path', 'path', air.path);
  const discharge = w.figure(
    {
      id: 'discharge-pressure',
      symbol: 'p_tip',
      name: 'absolute pressure where the injectors discharge, at full load',
      dimension: 'absolute-pressure',
      formula: dischargeFormula(place, air.path),
      source: 'pressure balance; above the plates there is boost only in a blow-through',
      home: BRIEF,
    },
    [air.ambient, air.boost, air.manifoldPressure, injectors.place, pathTerm],
    (ambient, boost, manifold) =>
      dischargePressure({ place, path: air.path, boost, manifoldPressure: manifold, ambient }),
  );
  const across = w.figure(
    {
      id: 'injector-pressure',
      symbol: 'dp',
      name: 'pressure across the injector at full load',
      dimension: 'pressure',
      formula: 'p_rail + p_a - p_tip',
      source: 'pressure balance',
      home: HOME,
    },
    [rail, injectors.ambient, discharge],
    pressureAcross,
  );
  return w.figure(
    {
      id: 'injector-flow',
      symbol: 'm_s',
      name: 'static flow of one injector at that pressure',
      dimension: 'injector-flow',
      formula: 'm_rated * sqrt(dp / p_rated)',
      source: 'orifice equation (Bernoulli)',
      home: HOME,
    },
    [injectors.rated, injectors.ratedPressure, across],
    staticFlow,
  );
}

function dischargeFormula(place: DischargePlace, path: AirTerms['path']): string {
  if (place === 'above-throttle') return path === 'blow-through' ? 'p_a + p_b' : 'p_a';
  return path === 'draw-through' ? 'min(p_m, p_a)' : 'p_m';
}

/** Duty of the injectors at full load and the size they need. */
export function fullLoadFigures(w: Worksheet, injectors: Injectors, flow: Maybe, each: Maybe): void {
  const { cylinders, firing, firingScheme, deadTime } = injectors;
  const limit = dutyLimit(w);
  const speeds = [
    { id: 'peak-power', symbol: 'N_p', path: 'engine.peak-power-speed', word: 'at peak-power speed' },
    { id: 'redline', symbol: 'N_r', path: 'engine.redline', word: 'at redline' },
  ];
  for (const { id, symbol, path, word } of speeds) {
    const turns = w.given(path, symbol);
    w.figure(
      {
        id: `duty-${id}`,
        symbol: `D_${symbol.slice(-1)}`,
        name: `duty cycle ${word}`,
        dimension: 'ratio',
        formula: `m_i / m_s + t_d * k * ${symbol} / 2, k pulses per cycle`,
        source: 'kinematics of the four-stroke cycle',
        home: id === 'redline' ? HOME : [...HOME, 'engine.peak-power-speed'],
        notes: id === 'redline' ? ['the fuel at redline is taken as that at peak power, on the safe side'] : [],
      },
      [each, flow, deadTime, turns, cylinders, firing],
      (demand, stat, dead, speed, count) =>
        duty(demand, injection(stat, dead, speed, pulsesPerCycle(firingScheme, count))),
    );
  }
  highestDuty(w, injectors, flow, each);
  const required = w.figure(
    {
      id: 'required-static-flow',
      symbol: 'm_s,req',
      name: 'static flow each injector needs at the duty limit',
      dimension: 'injector-flow',
      formula: 'm_i / (limit - t_d * k * N / 2) at the higher of N_p and N_r',
      source: 'kinematics of the four-stroke cycle; duty limit common practice',
      home: HOME,
    },
    [
      each,
      limit,
      deadTime,
      w.given('engine.redline', 'N_r'),
      w.given('engine.peak-power-speed', 'N_p'),
      cylinders,
      firing,
    ],
    (demand, share, dead, redline, peak, count) =>
      requiredStaticFlow(demand, share, {
        deadTime: dead,
        speed: Math.max(redline, peak),
        pulsesPerCycle: pulsesPerCycle(firingScheme, count),
      }),
  );
  w.figure(
    {
      id: 'pressure-for-required-flow',
      symbol: 'dp_req',
      name: 'pressure across these injectors that would give the required flow',
      dimension: 'pressure',
      formula: 'p_rated * (m_s,req / m_rated)^2',
      source: 'orifice equation (Bernoulli)',
      home: BRIEF,
      notes: ['ask whether pump, hoses and injectors stand that pressure before raising it'],
    },
    [required, injectors.rated, injectors.ratedPressure],
    pressureForFlow,
  );
}

/** Steps of the speed range at which the duty is computed. */
const SPEEDS = 8;

/** Duty over the whole speed range at full load, torque flat up to peak power and fuel flat beyond. */
function highestDuty(w: Worksheet, injectors: Injectors, flow: Maybe, each: Maybe): void {
  const idle = w.given('engine.idle', 'N_i');
  const peak = w.given('engine.peak-power-speed', 'N_p');
  const redline = w.given('engine.redline', 'N_r');
  const terms = [each, flow, injectors.deadTime, idle, peak, redline, injectors.cylinders, injectors.firing] as const;
  const [demand = 0, stat = 0, dead = 0, low = 0, top = 0, last = 0, count = 0] = terms.map(numberOf);
  const isComplete = terms.every(isKnown);
  const dutyAt = (speed: number) =>
    duty(
      demand * Math.min(1, speed / top),
      injection(stat, dead, speed, pulsesPerCycle(injectors.firingScheme, count)),
    );
  const speeds = Array.from({ length: SPEEDS + 1 }, (_, step) => low + ((last - low) * step) / SPEEDS);
  const points = () =>
    speeds.map(
      (speed) => `${formatValue(speed, 'rotational-speed', 'us')} ${formatValue(dutyAt(speed), 'ratio', 'us')}`,
    );
  w.figure(
    {
      id: 'duty-highest',
      symbol: 'D_max',
      name: 'highest duty cycle over the whole speed range at full load',
      dimension: 'ratio',
      formula: 'max of m_i min(1, N / N_p) / m_s + t_d k N / 2 from N_i to N_r',
      source: 'kinematics; torque flat up to peak power and fuel flat beyond: common practice',
      home: BRIEF,
      notes: isComplete && stat > 0 && low > 0 && last > low ? [points().join(', ')] : [],
    },
    terms,
    () => Math.max(...speeds.map(dutyAt)),
  );
}
