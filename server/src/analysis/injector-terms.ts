import { DEAD_TIME_VOLTAGE, deadTimeEstimate, deadTimeFromTable } from '../engineering/dead-time.ts';
import type { DischargePlace, FiringScheme, Injection } from '../engineering/injectors.ts';
import type { Quantity } from '../units/quantity.ts';
import type { AirTerms } from './air.ts';
import type { Maybe } from './figure.ts';
import type { Worksheet } from './worksheet.ts';

/** Fields on whose hover the figures of the injectors belong: all of them, or only injectors and stage. */
export const INJECTION_HOME = ['throttle-body.injectors', 'throttle-body', 'stages'];
export const INJECTORS_HOME = ['throttle-body.injectors', 'stages'];

/** Where the injectors discharge and how they fire, with the usual choice where the sheet says nothing. */
export function injectorChoices(w: Worksheet): { place: DischargePlace; firing: FiringScheme } {
  const injectors = w.stage.values['throttle-body']?.injectors;
  return { place: injectors?.discharge ?? 'above-throttle', firing: injectors?.firing ?? 'twice-per-cycle' };
}

/** What the figures of the injectors are computed from. */
export type Injectors = {
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

/** The injectors of all throttle bodies of a stage. */
export function injectorTerms(w: Worksheet, air: AirTerms): Injectors {
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
      home: INJECTORS_HOME,
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
    home: INJECTION_HOME,
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

/** The duty limit: of the injectors themselves, else of the sheet or the house. */
export function dutyLimit(w: Worksheet): Maybe {
  const house = w.limit('largest-duty');
  const own = w.given('throttle-body.injectors.largest-duty', 'limit', {
    value: house.value,
    because: house.assumed ?? 'limit of the sheet or the house',
  });
  return 'assumed' in own && !house.assumed ? house : own;
}

/** How one injector works: static flow kg/s, dead time s, speed rev/s, pulses per cycle. */
export function injection(stat: number, dead: number, speed: number, pulses: number): Injection {
  return { staticFlow: stat, deadTime: dead, speed, pulsesPerCycle: pulses };
}
