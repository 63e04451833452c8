import { SEA_LEVEL, standardAir } from '../../server/src/engineering/air.ts';
import { CRITICAL_PRESSURE_RATIO, idealMassFlux } from '../../server/src/engineering/compressible.ts';
import { ADAPTER_THICKNESS, hoodMargin, stackHeight } from '../../server/src/engineering/stack.ts';
import * as throttle from '../../server/src/engineering/throttle.ts';
import { type Check, fromFirstSet } from './check.ts';
import { CUBIC_FOOT_PER_MINUTE, INCH, INCH_OF_MERCURY } from './units.ts';
import gas from './values/gas.json' with { type: 'json' };
import liquids from './values/liquids.json' with { type: 'json' };
import { worst } from './worst.ts';

const topic = 'throttle body';
const first = (id: string, got: () => number) => fromFirstSet(id, 9, topic, got);
const bores = throttle.boreArea([{ quantity: 4, diameter: 1.75 * INCH }]);
const ideal = throttle.effectiveArea(bores, 1);
const usual = throttle.effectiveArea(bores, 0.75);
const flow = 473.453 * CUBIC_FOOT_PER_MINUTE;

const naca = 'NACA Report 1135 (1953), table I, subsonic; values read in reprinted tables for a heat ratio of 1.4';
const table = (mach: number, pressureRatio: number, areaRatio: number, tolerance: number): Check => ({
  id: `throttle-naca-${mach}-area`,
  section: 9,
  topic,
  what: `choked mass flux over that at a pressure ratio of ${pressureRatio}, which is the area over the sonic area`,
  got: () => idealMassFlux(1e5, 288.15, 0) / idealMassFlux(1e5, 288.15, pressureRatio * 1e5),
  expected: areaRatio,
  unit: '-',
  tolerance: { relative: tolerance },
  source: `${naca}; its last digit of the pressure allows for the tolerance`,
});

const grid = (id: string, what: string, tolerance: number, source: string, got: () => number): Check => ({
  id,
  section: 9,
  topic,
  what: `Largest relative difference over a grid: ${what}`,
  got,
  expected: 0,
  unit: '-',
  tolerance: { absolute: tolerance },
  source,
});

export const checks: Check[] = [
  first('T13', () => throttle.airflowRating(ideal, throttle.FOUR_BORE_TEST_DEPRESSION) / CUBIC_FOOT_PER_MINUTE),
  first('T15', () => throttle.depressionAt(flow * 1.225, usual, SEA_LEVEL) / INCH_OF_MERCURY),
  first('T17', () => throttle.throttleFlow(usual, 1.5 * INCH_OF_MERCURY, standardAir(1500)).massFlow * 1e3),
  table(0.1, 0.993, 5.8218, 0.004),
  table(0.5, 0.843, 1.3398, 0.0003),
  table(0.6, 0.784, 1.1882, 0.0002),
  table(0.9, 0.5913, 1.0089, 0.0001),
  table(1, 0.5283, 1, 0.0001),
  {
    id: 'throttle-critical',
    section: 9,
    topic,
    what: 'pressure ratio at which the bores choke',
    got: () => CRITICAL_PRESSURE_RATIO,
    expected: gas.critical.rows[0]?.[0] as number,
    unit: '-',
    tolerance: { relative: 1e-9 },
    source: `${gas['made with']}: fluids.P_critical_flow`,
  },
  {
    id: 'throttle-convention',
    section: 9,
    topic,
    what: 'rating at 3.0 inHg over rating at 1.5 inHg by the trade convention',
    got: () => throttle.ratingAt(600, throttle.FOUR_BORE_TEST_DEPRESSION, throttle.TWO_BORE_TEST_DEPRESSION) / 600,
    expected: Math.SQRT2,
    unit: '-',
    tolerance: { relative: 1e-5 },
    source: 'common practice, square-root law',
  },
  {
    id: 'throttle-compressible-ratings',
    section: 9,
    topic,
    what: 'rating at 3.0 inHg over rating at 1.5 inHg, ideal compressible flow',
    got: () =>
      throttle.airflowRating(1, throttle.TWO_BORE_TEST_DEPRESSION) /
      throttle.airflowRating(1, throttle.FOUR_BORE_TEST_DEPRESSION),
    expected: 1.3735,
    unit: '-',
    tolerance: { relative: 1e-4 },
    source: 'notes to the first set of outside checks, rows T10 and T11: 1.3735',
  },
  {
    id: 'throttle-stack',
    section: 9,
    topic,
    what: 'room under a 4 in hood over one 3/16 in adapter, a 1.5 in body and a 2 in air cleaner',
    got: () =>
      hoodMargin(
        4 * INCH,
        stackHeight({ adapters: [ADAPTER_THICKNESS], throttleBody: 1.5 * INCH, airCleaner: 2 * INCH }),
      ) / INCH,
    expected: 0.3125,
    unit: 'in',
    tolerance: { relative: 1e-9 },
    source: 'worked by hand: 4 - 3/16 - 1 1/2 - 2; adapter thickness is common practice',
  },
  grid(
    'throttle-flux-grid',
    'ideal mass flux against the expansibility of an ISO 5167 nozzle',
    1e-9,
    `${gas['made with']}: ${gas.bores.call}`,
    () =>
      worst(gas.bores.rows, 3, (pressure, temperature, depression) =>
        idealMassFlux(pressure, temperature, pressure - depression),
      ),
  ),
  grid(
    'throttle-depression-grid',
    'depression at a mass flux',
    1e-7,
    `${gas['made with']}: ${gas.depressions.call}`,
    () =>
      worst(gas.depressions.rows, 3, (pressure, temperature, flux) =>
        throttle.depressionAt(flux, 1, { pressure, temperature, density: pressure / 287.05287 / temperature }),
      ),
  ),
  grid(
    'throttle-real-air-grid',
    'ideal mass flux against real air expanding along an isentrope',
    2e-3,
    `${liquids['made with']}: equation of state of air (Lemmon et al. 2000)`,
    () =>
      worst(liquids.expansion.rows, 3, (pressure, temperature, depression) =>
        idealMassFlux(pressure, temperature, pressure - depression),
      ),
  ),
];
