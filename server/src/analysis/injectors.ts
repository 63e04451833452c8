import { DEAD_TIME_VOLTAGE, type DeadTimeTable, readDeadTime } from '../engineering/dead-time.ts';
import {
  type DischargePlace,
  type FiringScheme,
  type Injection,
  pulsesPerCycle as pulsesPerCycleOf,
} from '../engineering/injectors.ts';
import { cylinders } from './engine.ts';
import { choice, choose, fact, field, figure, given, limit, type Node, table } from './node.ts';

/** Fields on whose hover the figures of the injectors belong: all of them, or only injectors and stage. */
export const INJECTION_HOME = ['throttle-body.injectors', 'throttle-body', 'stages'] as const;
export const INJECTORS_HOME = ['throttle-body.injectors', 'stages'] as const;

/** Where the injectors discharge. */
export const dischargePlace = choice<DischargePlace>('throttle-body.injectors.discharge', 'place', {
  value: 'above-throttle',
  because: 'usual for throttle bodies',
});

export const firing = choice<FiringScheme>('throttle-body.injectors.firing', 'firing', {
  value: 'twice-per-cycle',
  because: 'common practice',
});

const firedByCylinders = fact({
  id: 'pulses-by-cylinders',
  from: { firing, cylinders },
  compute: ({ firing, cylinders }) => pulsesPerCycleOf(firing, cylinders),
});
const firedByTurns = fact({
  id: 'pulses-by-turns',
  from: { firing },
  compute: ({ firing }) => pulsesPerCycleOf(firing, 1),
});

/** Pulses of one injector in a cycle of two turns; the cylinders count where it fires on ignition events. */
export const pulsesPerCycle = choose({
  id: 'pulses-per-cycle',
  from: { firing },
  among: ({ firing }) =>
    firing === 'once-per-cycle' || firing === 'twice-per-cycle' ? firedByTurns : firedByCylinders,
});

export const throttleBodies = field('throttle-body.quantity', 'n_tb', { value: 1, because: 'one throttle body' });
const perBody = field('throttle-body.injectors.quantity', 'n_inj');
export const ratedFlow = field('throttle-body.injectors.static-flow', 'm_rated');
export const ratedPressure = field('throttle-body.injectors.rated-pressure', 'p_rated');
export const shortestPulse = field('throttle-body.injectors.shortest-pulse', 't_min');

export const injectorCount = figure({
  id: 'injector-count',
  symbol: 'n',
  name: 'injectors in all',
  dimension: 'ratio-number',
  formula: 'n_tb * n_inj',
  source: 'count',
  home: INJECTORS_HOME,
  from: { throttleBodies, perBody },
  compute: ({ throttleBodies, perBody }) => throttleBodies * perBody,
});

export const injectorVoltage = field('electrical.charging-voltage', 'U', { value: 13.8, because: 'common practice' });

const hasDeadTimeTable = given('throttle-body.injectors.dead-time-at');
const deadTimePoints = table('throttle-body.injectors.dead-time-at', 't_d(U)');
const ratedDeadTime = field('throttle-body.injectors.dead-time', 't_d0');
const deadTimeVoltage = field('throttle-body.injectors.dead-time-voltage', 'U_d', {
  value: DEAD_TIME_VOLTAGE,
  because: 'common practice',
});

const tablePoints = fact({
  id: 'dead-times-measured',
  from: { deadTimePoints },
  compute: ({ deadTimePoints }) => deadTimePoints.map(([voltage, deadTime]) => ({ voltage, deadTime })),
});
const onePoint = fact({
  id: 'dead-time-stated',
  from: { ratedDeadTime, deadTimeVoltage },
  compute: ({ ratedDeadTime, deadTimeVoltage }) => [{ voltage: deadTimeVoltage, deadTime: ratedDeadTime }],
});

/** Dead times of one injector as the sheet gives them: a table, or a single one. */
export const deadTimes = choose({
  id: 'dead-times',
  from: { hasDeadTimeTable },
  among: ({ hasDeadTimeTable }) => (hasDeadTimeTable ? tablePoints : onePoint),
});

/** Dead time at a voltage and how far it is to be trusted; impossible where nobody knows it. */
export function deadTimeReading(id: string, voltage: Node<number>) {
  return fact({
    id,
    from: { deadTimes, voltage },
    compute: ({ deadTimes, voltage }) => {
      const found = readDeadTime(voltage, deadTimes);
      if (found.trust !== 'unknown') return found;
      throw new RangeError(`Nobody knows the dead time at ${voltage.toFixed(1)} V: ${lowestOf(deadTimes)}.`);
    },
  });
}

function lowestOf(points: DeadTimeTable): string {
  return points.length > 1 ? `its table begins at ${points[0]?.voltage} V` : 'injectors open late there or not at all';
}

const reading = deadTimeReading('dead-time-reading', injectorVoltage);

export const deadTime = figure({
  id: 'dead-time',
  symbol: 't_d',
  name: 'dead time at charging voltage',
  dimension: 'time',
  home: INJECTION_HOME,
  formula: ({ reading, hasDeadTimeTable }) =>
    hasDeadTimeTable && reading.trust === 'measured' ? 'linear between the points of the table' : 't_d0 * (U_d / U)^2',
  source: ({ reading, hasDeadTimeTable }) =>
    hasDeadTimeTable && reading.trust === 'measured'
      ? 'the table of the sheet'
      : 'common practice, an estimate; give dead-time-at for better',
  notes: ({ reading, hasDeadTimeTable }) =>
    hasDeadTimeTable && reading.trust === 'estimated' ? ['estimated from the nearest point of the table'] : [],
  from: { hasDeadTimeTable, reading },
  compute: ({ reading }) => reading.deadTime,
});

/** Dead time at the voltage at which makers state their injectors, s. */
export const statedDeadTime = fact({
  id: 'dead-time-as-stated',
  from: { deadTimes },
  compute: ({ deadTimes }) => readDeadTime(DEAD_TIME_VOLTAGE, deadTimes).deadTime,
});

const hasOwnDutyLimit = given('throttle-body.injectors.largest-duty');
const ownDutyLimit = field('throttle-body.injectors.largest-duty', 'limit');
const houseDutyLimit = limit('largest-duty');

/** The duty limit: of the injectors themselves, else of the sheet or the house. */
export const dutyLimit = choose({
  id: 'duty-limit',
  from: { hasOwnDutyLimit },
  among: ({ hasOwnDutyLimit }) => (hasOwnDutyLimit ? ownDutyLimit : houseDutyLimit),
});

/** How one injector works: static flow kg/s, dead time s, speed rev/s, pulses per cycle. */
export function injection(stat: number, dead: number, speed: number, pulses: number): Injection {
  return { staticFlow: stat, deadTime: dead, speed, pulsesPerCycle: pulses };
}
