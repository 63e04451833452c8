import type { Air } from '../engineering/air.ts';
import { hoodMargin, stackHeight } from '../engineering/stack.ts';
import {
  airflowRating,
  boreArea,
  DISCHARGE_COEFFICIENT,
  depressionAt,
  effectiveArea,
  FOUR_BORE_TEST_DEPRESSION,
  ratedArea,
  ratingAt,
  TWO_BORE_TEST_DEPRESSION,
} from '../engineering/throttle.ts';
import type { AirTerms } from './air.ts';
import type { DemandTerms } from './demand.ts';
import type { Maybe } from './figure.ts';
import type { Worksheet } from './worksheet.ts';

const HOME = ['throttle-body.bores', 'throttle-body'];

/** Airflow of the throttle bodies and the height of the stack. */
export function throttleFigures(w: Worksheet, air: AirTerms, demand: DemandTerms): void {
  const bodies = w.given('throttle-body.quantity', 'n_tb', { value: 1, because: 'one throttle body' });
  const area = effectiveAreaOf(w, bodies);
  const upstream = upstreamOf(air);
  const depression = w.figure(
    {
      id: 'depression',
      symbol: 'dp_tb',
      name: 'pressure drop through the throttle body at full power',
      dimension: 'depression',
      formula: 'solved: m_a,P = A p_0 / sqrt(R T_0) sqrt(2g/(g-1) (r^(2/g) - r^((g+1)/g)))',
      source: 'NACA Report 1135; Heywood, eqs. C.8 and C.9',
      home: [...HOME, 'stages'],
      notes: [
        air.path === 'blow-through'
          ? 'upstream air at boost and charge temperature'
          : 'upstream air of the hottest day',
      ],
    },
    [demand.air, area, upstream.pressure, upstream.temperature],
    (flow, effective, pressure, temperature) => depressionAt(flow, effective, gas(pressure, temperature)),
  );
  const ratings = [
    { id: 'airflow-four-bore', at: FOUR_BORE_TEST_DEPRESSION, word: '1.5 inHg, the custom for four bores' },
    { id: 'airflow-two-bore', at: TWO_BORE_TEST_DEPRESSION, word: '3.0 inHg, the custom for two bores' },
  ];
  for (const { id, at, word } of ratings) {
    w.figure(
      {
        id,
        symbol: 'Q',
        name: `airflow of all throttle bodies at ${word}`,
        dimension: 'air-flow',
        formula: 'compressible flow at the test pressure drop, sea-level standard air',
        source: 'NACA Report 1135; test pressure drops common practice',
        home: HOME,
        notes: ['by compressible flow'],
      },
      [area],
      (effective) => airflowRating(effective, at),
    );
  }
  w.figure(
    {
      id: 'airflow-two-bore-trade',
      symbol: 'Q_sqrt2',
      name: 'the same at 3.0 inHg by the custom of sqrt(2)',
      dimension: 'air-flow',
      formula: 'Q(1.5 inHg) * sqrt(3.0 / 1.5)',
      source: 'common practice; compressible flow gives 3 % less',
      home: ['throttle-body.bores', 'throttle-body.rated-airflow'],
    },
    [area],
    (effective) =>
      ratingAt(
        airflowRating(effective, FOUR_BORE_TEST_DEPRESSION),
        FOUR_BORE_TEST_DEPRESSION,
        TWO_BORE_TEST_DEPRESSION,
      ),
  );
  const needed = w.figure(
    {
      id: 'airflow-needed',
      symbol: 'Q_need',
      name: 'airflow the claimed power needs, upstream of the throttle',
      dimension: 'air-flow',
      formula: 'm_a,P / rho_upstream',
      source: 'ideal gas',
      home: [...HOME, 'stages'],
    },
    [demand.air, upstream.pressure, upstream.temperature],
    (flow, pressure, temperature) => flow / gas(pressure, temperature).density,
  );
  w.figure(
    {
      id: 'airflow-share',
      symbol: 's_Q',
      name: 'share of the throttle body that the engine uses',
      dimension: 'ratio',
      formula: 'Q_need / Q(1.5 inHg)',
      source: 'definition',
      home: HOME,
    },
    [needed, area, depression],
    (flow, effective) => flow / airflowRating(effective, FOUR_BORE_TEST_DEPRESSION),
  );
  stackFigures(w);
}

/** Air ahead of the throttle plates at full load. */
function upstreamOf(air: AirTerms): { pressure: Maybe; temperature: Maybe } {
  if (air.path === 'blow-through') return { pressure: air.manifoldPressure, temperature: air.chargeTemperature };
  return { pressure: air.ambient, temperature: air.hottest };
}

function gas(pressure: number, temperature: number): Air {
  return { pressure, temperature, density: pressure / (287.05287 * temperature) };
}

function effectiveAreaOf(w: Worksheet, bodies: Maybe): Maybe {
  const body = w.stage.values['throttle-body'];
  const spec = {
    id: 'effective-area',
    symbol: 'A',
    name: 'effective area of all bores',
    dimension: 'area' as const,
    home: HOME,
  };
  if (body?.['rated-airflow']) {
    const isTwoBore = (body.bores?.quantity ?? 4) <= 2;
    const test = w.given('throttle-body.rated-pressure-drop', 'dp_test', {
      value: isTwoBore ? TWO_BORE_TEST_DEPRESSION : FOUR_BORE_TEST_DEPRESSION,
      because: `common practice for ${isTwoBore ? 'two' : 'four'} bores`,
    });
    return w.figure(
      {
        ...spec,
        formula: 'n_tb * area that passes the rated flow at dp_test',
        source: 'NACA Report 1135, solved for the area',
      },
      [w.given('throttle-body.rated-airflow', 'Q_rated'), test, bodies],
      (flow, depression, count) => count * ratedArea(flow, depression),
    );
  }
  const coefficient = w.given('throttle-body.bores.discharge-coefficient', 'C_d', {
    value: DISCHARGE_COEFFICIENT,
    because: 'common practice, 0.7 to 0.85',
  });
  const count = w.given('throttle-body.bores.quantity', 'n_b');
  const diameter = w.given('throttle-body.bores.diameter', 'd');
  return w.figure(
    { ...spec, formula: 'n_tb * n_b * C_d * pi d^2 / 4', source: 'geometry' },
    [bodies, count, coefficient, diameter],
    (set, bores, share, bore) => set * effectiveArea(boreArea([{ quantity: bores, diameter: bore }]), share),
  );
}

function stackFigures(w: Worksheet): void {
  const none = (because: string) => ({ value: 0, because });
  const hasAdapter = w.stage.values.stack?.adapter !== undefined;
  const adapter = w.given('stack.adapter.thickness', 'h_a', {
    value: hasAdapter ? 0.0047625 : 0,
    because: hasAdapter ? 'common practice: 3/16 in' : 'no adapter',
  });
  const stack = w.figure(
    {
      id: 'stack-height',
      symbol: 'h',
      name: 'height of the stack on the intake flange',
      dimension: 'length',
      formula: 'h_a + h_s + h_tb + h_c',
      source: 'sum',
      home: ['stack', 'vehicle.hood-clearance', 'throttle-body.height'],
    },
    [
      adapter,
      w.given('stack.spacer', 'h_s', none('no spacer')),
      w.given('throttle-body.height', 'h_tb'),
      w.given('stack.air-cleaner', 'h_c'),
    ],
    (plate, spacer, body, cleaner) =>
      stackHeight({ adapters: [plate, spacer], throttleBody: body, airCleaner: cleaner }),
  );
  w.figure(
    {
      id: 'hood-gap',
      symbol: 'gap',
      name: 'gap between stack and hood',
      dimension: 'length',
      formula: 'clearance - h',
      source: 'difference',
      home: ['stack', 'vehicle.hood-clearance'],
    },
    [w.given('vehicle.hood-clearance', 'clearance'), stack],
    hoodMargin,
  );
}
