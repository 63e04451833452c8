import { trueVaporPressure } from '../engineering/boiling.ts';
import { thinPressure } from './air.ts';
import { volatility } from './boiling.ts';
import { field, figure, given } from './node.ts';

const soakTemperature = field('fuel-system.holding.soak-temperature', 'T_s', {
  value: 353.15,
  because: 'common practice, from memory: 80 degC at the throttle body after a hot stop',
});

/** Gauge pressure that keeps the fuel at the throttle body liquid after a hot stop, Pa. */
export const soakPressureNeeded = figure({
  id: 'soak-pressure-needed',
  symbol: 'p_s',
  name: 'pressure that keeps hot fuel liquid after a stop',
  dimension: 'pressure',
  formula: 'max(0, p_v(T_s) - p_thin)',
  source: 'EPA AP-42, 5th ed., chapter 7.1, figure 7.1-14b; alcohols by Antoine, from memory',
  home: ['fuel-system.holding', 'fuel-system.holding.held-pressure'],
  notes: ['80 degC is hotter than the chart behind the formula goes; it is an estimate there.'],
  when: given('fuel-system.holding.held-pressure'),
  from: { volatility, soakTemperature, thinPressure },
  compute: (values) => Math.max(0, trueVaporPressure(values.volatility, values.soakTemperature) - values.thinPressure),
});
