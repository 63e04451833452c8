import { DEAD_TIME_VOLTAGE, deadTimeEstimate, deadTimeFromTable } from '../engineering/dead-time.ts';
import { fuelDemandByAir } from '../engineering/demand.ts';
import { IDLE_MANIFOLD_PRESSURE, idleAirFlow, powerCovered } from '../engineering/idle.ts';
import {
  type DischargePlace,
  dischargePressure,
  duty,
  type FiringScheme,
  type Injection,
  pressureAcross,
  pressureForFlow,
  pulsesPerCycle,
  pulseWidth,
  railPressure,
  requiredStaticFlow,
  staticFlow,
} from '../engineering/injectors.ts';
import { formatValue, type Quantity } from '../sheet/quantity.ts';
import type { AirTerms } from './air.ts';
import type { DemandTerms } from './demand.ts';
import { isKnown, type Maybe, numberOf } from './figure.ts';
import type { FuelTerms } from './fuel.ts';
import type { Worksheet } from './worksheet.ts';

const HOME = ['throttle-body.injectors', 'throttle-body', 'stages'];
const BRIEF = ['throttle-body.injectors', 'stages'];

/** Where the injectors discharge and how they fire, with the usual choice where the sheet says nothing. */
export function injectorChoices(w: Worksheet): { place: DischargePlace; firing: FiringScheme } {
  const injectors = w.stage.values['throttle-body']?.injectors;
  return { place: injectors?.discharge ?? 'above-throttle', firing: injectors?.firing ?? 'twice-per-cycle' };
}

type Injectors = {
  quantity: Maybe;
  firing: Maybe;
  firingScheme: FiringScheme;
  cylinders: Maybe;
  rated: Maybe;
  ratedPressure: Maybe;
  deadTime: Maybe;
  place: Maybe;
  ambient: Maybe;
};

/** Pressure, flow, duty and idle pulse of the injectors. */
export function injectionFigures(w: Worksheet, air: AirTerms, demand: DemandTerms, fuel: FuelTerms): void {
  const injectors = injectorTerms(w, air);
  const flow = fullLoadFlow(w, injectors, air);
  const each = w.figure(
    {
      id: 'demand-per-injector',
      symbol: 'm_i',
      name: 'fuel demand per injector',
      dimension: 'mass-flow',
      formula: 'm_f / n',
      source: 'mass balance',
      home: BRIEF,
    },
    [demand.injectors, injectors.quantity],
    (total, count) => total / count,
  );
  fullLoadFigures(w, injectors, flow, each);
  idleFigures(w, injectors, air, fuel, demand, flow);
}

function injectorTerms(w: Worksheet, air: AirTerms): Injectors {
  const { place, firing } = injectorChoices(w);
  const given = w.stage.values['throttle-body']?.injectors;
  const placeTerm = w.choice(
    'throttle-body.injectors.discharge',
    'place',
    place,
    given?.discharge ? undefined : 'usual for throttle bodies',
  );
  const firingTerm = w.choice(
    'throttle-body.injectors.firing',
    'firing',
    firing,
    given?.firing ? undefined : 'common practice',
  );
  const bodies = w.given('throttle-body.quantity', 'n_tb', { value: 1, because: 'one throttle body' });
  const perBody = w.given('throttle-body.injectors.quantity', 'n_inj');
  const quantity = w.figure(
    {
      id: 'injector-count',
      symbol: 'n',
      name: 'injectors in all',
      dimension: 'ratio-number',
      formula: 'n_tb * n_inj',
      source: 'count',
      home: BRIEF,
    },
    [bodies, perBody],
    (count, each) => count * each,
  );
  return {
    quantity,
    firing: firingTerm,
    firingScheme: firing,
    cylinders: w.given('engine.cylinders', 'n_cyl'),
    rated: w.given('throttle-body.injectors.static-flow', 'm_rated'),
    ratedPressure: w.given('throttle-body.injectors.rated-pressure', 'p_rated'),
    deadTime: deadTime(w),
    place: placeTerm,
    ambient: air.ambient,
  };
}

function deadTime(w: Worksheet): Maybe {
  const table = w.stage.values['throttle-body']?.injectors?.['dead-time-at'] as [Quantity, Quantity][] | undefined;
  const voltage = w.given('electrical.charging-voltage', 'U', { value: 13.8, because: 'common practice' });
  const spec = {
    id: 'dead-time',
    symbol: 't_d',
    name: 'dead time at charging voltage',
    dimension: 'time' as const,
    home: HOME,
  };
  if (table) {
    const points = table.map(([volts, time]) => ({ voltage: w.read(volts), deadTime: w.read(time) }));
    const term = w.choice('throttle-body.injectors.dead-time-at', 't_d(U)', `${points.length} points`);
    return w.figure(
      { ...spec, formula: 'linear between the points of the table', source: 'the table of the sheet' },
      [term, voltage],
      (_, volts) => deadTimeFromTable(volts, points).deadTime,
    );
  }
  const measured = w.given('throttle-body.injectors.dead-time-voltage', 'U_d', {
    value: DEAD_TIME_VOLTAGE,
    because: 'common practice',
  });
  return w.figure(
    {
      ...spec,
      formula: 't_d0 * (U_d / U)^2',
      source: 'common practice, an estimate; give dead-time-at for better',
    },
    [w.given('throttle-body.injectors.dead-time', 't_d0'), measured, voltage],
    (known, at, volts) => deadTimeEstimate(volts, { voltage: at, deadTime: known }),
  );
}

function fullLoadFlow(w: Worksheet, injectors: Injectors, air: AirTerms): Maybe {
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

function fullLoadFigures(w: Worksheet, injectors: Injectors, flow: Maybe, each: Maybe): void {
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

/** The duty limit: of the injectors themselves, else of the sheet or the house. */
export function dutyLimit(w: Worksheet): Maybe {
  const house = w.limit('largest-duty');
  const own = w.given('throttle-body.injectors.largest-duty', 'limit', {
    value: house.value,
    because: house.assumed ?? 'limit of the sheet or the house',
  });
  return 'assumed' in own && !house.assumed ? house : own;
}

function idleFigures(
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
  const manifold = w.given('engine.idle-manifold-pressure', 'p_i', {
    value: IDLE_MANIFOLD_PRESSURE,
    because: 'common practice; a long-duration cam idles higher',
  });
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

function injection(stat: number, dead: number, speed: number, pulses: number): Injection {
  return { staticFlow: stat, deadTime: dead, speed, pulsesPerCycle: pulses };
}
