import { SEA_LEVEL } from '../engineering/air.ts';
import { fuelDemandByAir } from '../engineering/demand.ts';
import { IDLE_MANIFOLD_PRESSURE, idleAirFlow } from '../engineering/idle.ts';
import type { Quantity } from '../units/quantity.ts';
import { sitePressure } from './air.ts';
import { displacement, idleSpeed } from './engine.ts';
import { chemistry, stoichiometric } from './fuel.ts';
import { INJECTION_HOME as HOME } from './injectors.ts';
import { choose, fact, field, figure, reading } from './node.ts';
import type { Source } from './source.ts';

const READING = 'engine.idle-manifold-pressure';

function gaugeReading(source: Source): Quantity | undefined {
  const written = source.read(READING) as Quantity | undefined;
  return written?.isVacuum ? written : undefined;
}

const isGauge = reading<boolean>(
  'is-idle-pressure-by-vacuum-gauge',
  (source) => gaugeReading(source) !== undefined,
  ({ source }) => ({ value: gaugeReading(source) !== undefined, terms: [] }),
);

/** What a vacuum gauge shows at idle, Pa: it counts down from the air around it, wherever that is. */
const vacuumRead = reading<number>('vacuum-read-at-idle', gaugeReading, ({ source, pick }) => {
  const written = gaugeReading(source);
  if (!written) return { lacks: [READING] };
  const value = SEA_LEVEL.pressure - pick(written);
  const term = { symbol: 'v_i', name: 'vacuum gauge at idle', value, dimension: 'depression' as const };
  return { value, terms: [{ ...term, field: source.place(READING) }] };
});

const manifoldPressureByGauge = figure({
  id: 'idle-manifold-pressure',
  symbol: 'p_i',
  name: 'manifold pressure at idle by the vacuum gauge',
  dimension: 'absolute-pressure',
  formula: 'p_a - v_i',
  source: 'definition of gauge pressure',
  home: ['engine.idle-manifold-pressure'],
  when: isGauge,
  from: { sitePressure, vacuumRead },
  compute: (values) => values.sitePressure - values.vacuumRead,
});

const writtenPressure = field(READING, 'p_i');
const usualPressure = field(READING, 'p_i', {
  value: IDLE_MANIFOLD_PRESSURE,
  because: 'common practice; a long-duration cam idles higher',
});

/** Absolute manifold pressure at idle as it was measured, Pa. */
export const measuredIdlePressure = choose({
  id: 'idle-manifold-pressure-measured',
  from: { isGauge },
  among: (values) => (values.isGauge ? manifoldPressureByGauge : writtenPressure),
});

/** Absolute manifold pressure at idle, Pa. */
export const idleManifoldPressure = choose({
  id: 'idle-manifold-pressure-or-usual',
  from: { isGauge },
  among: (values) => (values.isGauge ? manifoldPressureByGauge : usualPressure),
});

export const idleVacuum = figure({
  id: 'idle-vacuum',
  symbol: 'v_i',
  name: 'vacuum at idle',
  dimension: 'depression',
  formula: 'p_a - p_i',
  source: 'definition of gauge pressure',
  home: ['engine.idle-manifold-pressure', 'vacuum-reference'],
  from: { sitePressure, measuredIdlePressure },
  compute: (values) => values.sitePressure - values.measuredIdlePressure,
});

/** How far the manifold is below the air outside at idle, Pa, negative when it is: gauge pressure. */
export const idleManifoldGauge = fact({
  id: 'idle-manifold-gauge',
  from: { idleManifoldPressure, sitePressure },
  compute: (values) => values.idleManifoldPressure - values.sitePressure,
});

export const idleAir = figure({
  id: 'idle-air',
  symbol: 'm_a,i',
  name: 'air at idle',
  dimension: 'mass-flow',
  formula: 'V_d * N_i / 2 * 0.5 * p_i / (R * 313 K)',
  source: 'Heywood (1988), eq. 2.27; volumetric efficiency 0.5 and 40 degC at idle are common practice',
  home: HOME,
  from: { displacement, idleSpeed, idleManifoldPressure },
  compute: (values) =>
    idleAirFlow({
      displacement: values.displacement,
      speed: values.idleSpeed,
      manifoldPressure: values.idleManifoldPressure,
    }),
});

export const idleFuel = figure({
  id: 'idle-fuel',
  symbol: 'm_f,i',
  name: 'fuel at idle',
  dimension: 'mass-flow',
  formula: 'm_a,i / AFR_st',
  source: 'Heywood (1988), eq. 3.9, lambda 1',
  home: HOME,
  from: { idleAir, stoichiometric, fuel: chemistry },
  compute: (values) => fuelDemandByAir(values.idleAir, 1, values.fuel),
});
