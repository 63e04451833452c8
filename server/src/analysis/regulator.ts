import { railPressure } from '../engineering/injectors.ts';
import { boost } from './boost.ts';
import { idleManifoldGauge } from './idle.ts';
import { choice, choose, constant, fact, field, figure, given } from './node.ts';

export const regulatorPressure = field('fuel-system.regulator.pressure', 'p_set');
export const regulatorReference = choice<'atmosphere' | 'manifold'>('fuel-system.regulator.reference', 'reference', {
  value: 'atmosphere',
  because: 'usual above the throttle plates',
});

type Style = 'bypass' | 'internal-bypass' | 'dead-head';

const regulatorStyle = choice<Style>('fuel-system.regulator.style', 'style', {
  value: 'bypass',
  because: 'usual for fuel injection: the surplus goes back to the tank',
});

/** Whether the regulator throttles what the engine takes and sends nothing back. */
export const isDeadHead = fact({
  id: 'is-dead-head',
  from: { regulatorStyle },
  compute: (values) => values.regulatorStyle === 'dead-head',
});

/** Whether the regulator is in the tank and spills there: one line to the front carries what is burned, none comes back. */
export const isInTank = fact({
  id: 'is-regulator-in-the-tank',
  from: { regulatorStyle, returnGiven: given('fuel-system.return') },
  compute: (values) => values.regulatorStyle === 'internal-bypass' && !values.returnGiven,
});

/** Whether a line leads the surplus back to the tank. */
export const hasReturn = fact({
  id: 'has-return',
  from: { isDeadHead, isInTank },
  compute: (values) => !values.isDeadHead && !values.isInTank,
});

const noReference = constant({
  symbol: 'reference',
  name: 'reference of the regulator',
  value: 0,
  dimension: 'pressure',
  assumed: 'the atmosphere',
});

/** Gauge pressure the regulator refers to, Pa: that of the manifold, Pa, where it is connected to it. */
const referenceOf = (id: string, manifold: typeof boost) =>
  choose({
    id,
    from: { regulatorReference },
    among: (values) => (values.regulatorReference === 'manifold' ? manifold : noReference),
  });

export const fullLoadReference = referenceOf('full-load-reference', boost);
export const idleReference = referenceOf('idle-reference', idleManifoldGauge);

/** Any air pressure, Pa: what the regulator holds over its reference does not depend on it. */
const STANDARD = 101325;

export const railPressureSet = figure({
  id: 'rail-pressure-set',
  symbol: 'p_rail',
  name: 'rail pressure the regulator holds at full load',
  dimension: 'pressure',
  formula: ({ regulatorReference }) => (regulatorReference === 'manifold' ? 'p_set + p_m - p_a' : 'p_set'),
  source: 'pressure balance on the diaphragm',
  home: ['throttle-body.injectors', 'stages', 'fuel-system.regulator'],
  from: { regulatorPressure, regulatorReference, fullLoadReference },
  compute: ({ regulatorPressure, fullLoadReference }) =>
    railPressure(regulatorPressure, STANDARD + fullLoadReference, STANDARD),
});

/** Gauge pressure in the rail at idle, Pa, while the regulator stands at its setting. */
export const idleRailSet = fact({
  id: 'idle-rail-pressure-set',
  from: { regulatorPressure, idleReference },
  compute: ({ regulatorPressure, idleReference }) =>
    railPressure(regulatorPressure, STANDARD + idleReference, STANDARD),
});
