import { fuelDemandByAir } from '../engineering/demand.ts';
import { IDLE_MANIFOLD_PRESSURE, idleAirFlow, powerCovered } from '../engineering/idle.ts';
import {
  dischargePressure,
  pressureAcross,
  pulsesPerCycle,
  pulseWidth,
  railPressure,
  staticFlow,
} from '../engineering/injectors.ts';
import type { AirTerms } from './air.ts';
import type { DemandTerms } from './demand.ts';
import type { Maybe } from './figure.ts';
import type { FuelTerms } from './fuel.ts';
import {
  INJECTORS_HOME as BRIEF,
  dutyLimit,
  INJECTION_HOME as HOME,
  type Injectors,
  injection,
  injectorChoices,
} from './injector-terms.ts';
import type { Worksheet } from './worksheet.ts';

/** Absolute manifold pressure at idle. */
export function idleManifoldPressure(w: Worksheet): Maybe {
  return w.given('engine.idle-manifold-pressure', 'p_i', {
    value: IDLE_MANIFOLD_PRESSURE,
    because: 'common practice; a long-duration cam idles higher',
  });
}

/** Pulse at idle against the shortest repeatable one, and the power range the injectors cover. */
export function idleFigures(
  w: Worksheet,
  injectors: Injectors,
  air: AirTerms,
  fuel: FuelTerms,
  demand: DemandTerms,
  flow: Maybe,
): void {
  const { place } = injectorChoices(w);
  const { cylinders, firing, firingScheme, deadTime, quantity } = injectors;
  const idle = w.given('engine.idle', 'N_i');
  const manifold = idleManifoldPressure(w);
  const displacement = w.given('engine.displacement', 'V_d');
  const idleAir = w.figure(
    {
      id: 'idle-air',
      symbol: 'm_a,i',
      name: 'air at idle',
      dimension: 'mass-flow',
      formula: 'V_d * N_i / 2 * 0.5 * p_i / (R * 313 K)',
      source: 'Heywood, eq. 2.27; volumetric efficiency 0.5 and 40 degC at idle are common practice',
      home: HOME,
    },
    [displacement, idle, manifold],
    (swept, speed, pressure) => idleAirFlow({ displacement: swept, speed, manifoldPressure: pressure }),
  );
  const idleFuel = w.figure(
    {
      id: 'idle-fuel',
      symbol: 'm_f,i',
      name: 'fuel at idle',
      dimension: 'mass-flow',
      formula: 'm_a,i / AFR_st',
      source: 'Heywood, eq. 3.9, lambda 1',
      home: HOME,
    },
    [idleAir, fuel.stoichiometric],
    (flowOfAir) => fuelDemandByAir(flowOfAir, 1, fuel.fuel),
  );
  const idleFlow = w.figure(
    {
      id: 'idle-injector-flow',
      symbol: 'm_s,i',
      name: 'static flow of one injector at idle',
      dimension: 'injector-flow',
      formula:
        place === 'above-throttle'
          ? 'm_rated * sqrt(p_rail / p_rated)'
          : 'm_rated * sqrt((p_rail + p_a - p_i) / p_rated)',
      source: 'orifice equation (Bernoulli)',
      home: BRIEF,
    },
    [
      injectors.rated,
      injectors.ratedPressure,
      w.given('fuel-system.regulator.pressure', 'p_set'),
      air.ambient,
      manifold,
      injectors.place,
    ],
    (rated, ratedAt, setting, ambient, pressure) => {
      const reference = w.stage.values['fuel-system']?.regulator?.reference === 'manifold' ? pressure : ambient;
      const tip = dischargePressure({ place, path: air.path, boost: 0, manifoldPressure: pressure, ambient });
      return staticFlow(rated, ratedAt, pressureAcross(railPressure(setting, reference, ambient), ambient, tip));
    },
  );
  const pulse = w.figure(
    {
      id: 'idle-pulse',
      symbol: 't_i',
      name: 'pulse at idle',
      dimension: 'time',
      formula: 'm_f,i / n / m_s,i * 2 / (k N_i) + t_d, k pulses per cycle',
      source: 'kinematics of the four-stroke cycle',
      home: [...HOME, 'engine.idle'],
    },
    [idleFuel, quantity, idleFlow, deadTime, idle, cylinders, firing],
    (total, count, stat, dead, speed, n) =>
      pulseWidth(total / count, injection(stat, dead, speed, pulsesPerCycle(firingScheme, n))),
  );
  const shortest = w.given('throttle-body.injectors.shortest-pulse', 't_min');
  w.figure(
    {
      id: 'idle-pulse-margin',
      symbol: 'k_i',
      name: 'pulse at idle over the shortest repeatable pulse',
      dimension: 'ratio-number',
      formula: 't_i / t_min',
      source: 'definition',
      home: HOME,
    },
    [pulse, shortest],
    (width, least) => width / least,
  );
  coveredPower(w, injectors, { flow, idleFlow, idleFuel, shortest, idle, demand: demand.engine });
}

function coveredPower(
  w: Worksheet,
  { quantity, deadTime, cylinders, firing, firingScheme }: Injectors,
  terms: { flow: Maybe; idleFlow: Maybe; idleFuel: Maybe; shortest: Maybe; idle: Maybe; demand: Maybe },
): void {
  const limit = dutyLimit(w);
  const power = w.given('stage.power', 'P');
  const speed = w.given('engine.redline', 'N_r');
  const inputs = [
    quantity,
    terms.flow,
    deadTime,
    speed,
    cylinders,
    firing,
    limit,
    terms.idleFlow,
    terms.idle,
    terms.shortest,
    terms.idleFuel,
    terms.demand,
    power,
  ] as const;
  for (const end of ['high', 'low'] as const) {
    w.figure(
      {
        id: `power-covered-${end}`,
        symbol: end === 'high' ? 'P_max' : 'P_min',
        name: `${end === 'high' ? 'most' : 'least'} power these injectors cover`,
        dimension: 'power',
        formula:
          end === 'high' ? 'n m_s (limit - t_d k N_r / 2) / BSFC' : 'P * fuel at the shortest pulse / fuel at idle',
        source: 'kinematics of the four-stroke cycle; fuel at idle in proportion to power: common practice',
        home: HOME,
      },
      inputs,
      (count, stat, dead, redline, n, _, share, idleStat, idleSpeed, least, idleFuel, demand, claimed) => {
        const pulses = pulsesPerCycle(firingScheme, n);
        return powerCovered({
          quantity: count,
          full: injection(stat, dead, redline, pulses),
          dutyLimit: share,
          idle: injection(idleStat, dead, idleSpeed, pulses),
          shortestPulse: least,
          idleShare: Math.min(1, idleFuel / demand),
          bsfc: demand / claimed,
        })[end];
      },
    );
  }
}
