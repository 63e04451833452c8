import { idleManifoldPressure } from '../engineering/idle.ts';
import { thinPressure } from './air.ts';
import { camDuration } from './engine.ts';
import { measuredIdlePressure } from './idle.ts';
import { choice, fact, figure, orElse, passes } from './node.ts';

const hasVacuumBooster = passes(
  'has-vacuum-booster',
  choice<string>('brakes.booster', 'booster'),
  (booster) => booster === 'vacuum',
);

const pressureByCam = fact({
  id: 'idle-manifold-pressure-by-cam',
  from: { camDuration },
  compute: (values) => idleManifoldPressure(values.camDuration),
});

/** Vacuum that the manifold has for the brake booster at idle where the air is thinnest, Pa. */
export const boosterVacuum = figure({
  id: 'booster-vacuum',
  symbol: 'v_i,b',
  name: 'vacuum for the brake booster at idle, at the highest place',
  dimension: 'depression',
  formula: 'max(0, p_thin - p_i)',
  source: 'definition of gauge pressure; where the idle was not measured, p_i by the cam: common practice, from memory',
  home: ['brakes', 'brakes.least-vacuum'],
  notes: ['In neutral; in gear the converter takes some of it.'],
  when: hasVacuumBooster,
  from: { thinPressure, idlePressure: orElse(measuredIdlePressure, pressureByCam) },
  compute: (values) => Math.max(0, values.thinPressure - values.idlePressure),
});
