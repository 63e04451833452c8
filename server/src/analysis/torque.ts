import { powerOfTorque } from '../engineering/demand.ts';
import { torqueAt, torqueCurveOf } from '../engineering/torque-curve.ts';
import { peakPowerSpeed } from './engine.ts';
import { fact, figure, optional, table } from './node.ts';

const points = table('engine.torque-curve', 'T(N)');

const curveOfSheet = fact({
  id: 'torque-curve',
  from: { points },
  compute: ({ points }) => torqueCurveOf(points.map(([speed, torque]) => ({ speed, torque }))),
});

/** Torque at full load over speed as the sheet gives it, where it does. Later stages take its shape. */
export const measuredTorque = optional(curveOfSheet);

export const powerByCurve = figure({
  id: 'power-by-torque-curve',
  symbol: 'P_T',
  name: 'power of the torque curve at peak-power speed',
  dimension: 'power',
  formula: '2 pi T(N_p) N_p',
  source: 'definition of power; between the points a shape-preserving cubic: Fritsch and Carlson (1980)',
  home: ['engine.torque-curve'],
  from: { curveOfSheet, peakPowerSpeed },
  compute: ({ curveOfSheet, peakPowerSpeed }) => {
    const { torque, outside } = torqueAt(curveOfSheet, peakPowerSpeed);
    if (outside) throw new RangeError('The torque curve does not reach the peak-power speed.');
    return powerOfTorque(torque, peakPowerSpeed);
  },
});
