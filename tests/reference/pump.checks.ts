import { lineLoss } from '../../server/src/engineering/lines.ts';
import { type FuelNetwork, filterLoss, solveNetwork } from '../../server/src/engineering/network.ts';
import { currentFromPower, pumpFlow, pumpFromTests } from '../../server/src/engineering/pump.ts';
import { requiredDelivery, requiredPressure } from '../../server/src/engineering/pump-duty.ts';
import { type Check, firstSetRow, fromFirstSet } from './check.ts';
import { LITER_PER_HOUR, POUND_PER_HOUR, PSI } from './units.ts';
import grid from './values/network.json' with { type: 'json' };

const topic = 'pump and network';
const gasoline = { density: 745, viscosity: 0.5e-3 / 745 };

/** The synthetic pump of rows D01 to D07, its straight pieces filled with points so that the cubic follows them. */
const straightPump = pumpFromTests([
  {
    voltage: 13.5,
    points: Array.from({ length: 4 * 46 + 1 }, (_, i) => {
      const piece = Math.min(3, Math.floor(i / 46));
      const from = [255, 240, 218, 190, 150][piece] as number;
      const to = [255, 240, 218, 190, 150][piece + 1] as number;
      return { pressure: i * 3e3, flow: (from + ((to - from) * (i - piece * 46)) / 46) * LITER_PER_HOUR };
    }),
  },
]);

function simple(pump: typeof straightPump): FuelNetwork {
  return {
    liquid: gasoline,
    suction: [],
    pumps: [{ pump, voltage: 13.5, role: 'main', quantity: 1 }],
    feed: [{ diameter: 0.0079375, length: 5, roughness: 1.5e-6 }],
    regulator: { setting: 300e3, reference: 0, place: 'rail' },
    return: [],
  };
}

type Drawn = (typeof grid.systems)[number];

function line([diameter, length, roughness, elbows90, rise]: number[]) {
  return { diameter, length, roughness, elbows90, rise } as FuelNetwork['feed'][number];
}

function solved(system: Drawn) {
  const { density } = system;
  const rated = 12;
  const points = system.pressures.map((pressure, i) => ({
    pressure,
    flow: (system.flows[i] as number) * LITER_PER_HOUR,
  }));
  const network: FuelNetwork = {
    liquid: { density, viscosity: system.viscosity / density },
    suction: [line(system.suction)],
    pumps: [
      {
        pump: pumpFromTests([{ voltage: rated, points }]),
        voltage: rated * system['voltage share'],
        role: 'main',
        quantity: 1,
      },
    ],
    feed: [line(system.feed)],
    filter: {
      flow: (system.filter[0] as number) * LITER_PER_HOUR,
      loss: system.filter[1] as number,
      law: 'linear',
    },
    regulator: { setting: system.setting, reference: 0, place: 'rail', minimumDrop: 10e3 },
    return: [line(system.return)],
  };
  return solveNetwork(network, system.consumption * LITER_PER_HOUR);
}

function worstOf(ours: (system: Drawn) => number, theirs: (system: Drawn) => number): number {
  return Math.max(...grid.systems.map((system) => Math.abs(ours(system) / theirs(system) - 1)));
}

function networkGrid(id: string, figure: string, got: () => number): Check {
  return {
    id,
    section: 5,
    topic,
    what: `Largest relative difference of the ${figure} of ${grid.systems.length} random fuel systems that hold, sag or back up`,
    got,
    expected: 0,
    unit: '-',
    tolerance: { absolute: 1e-6 },
    source: `solved for the flow with scipy.optimize.brentq over PchipInterpolator and fluids.friction.one_phase_dP, ${grid['made with']}`,
  };
}

export const checks: Check[] = [
  fromFirstSet('D07', 5, topic, () => solveNetwork(simple(straightPump), 0).delivered / LITER_PER_HOUR),
  {
    id: 'pump-D07-loss',
    section: 5,
    topic,
    what: 'pressure the feed line takes at the operating point of row D07',
    got: () => (solveNetwork(simple(straightPump), 0).pumpRise - 300e3) / 1000,
    expected: 9.444,
    unit: 'kPa',
    tolerance: { relative: 0.003 },
    source: firstSetRow('D07').source,
  },
  networkGrid('network-flow-grid', 'delivery', () =>
    worstOf(
      (system) => solved(system).delivered / LITER_PER_HOUR,
      (system) => system.delivered,
    ),
  ),
  networkGrid('network-rail-grid', 'rail pressure', () =>
    worstOf(
      (system) => solved(system).pressures.rail,
      (system) => system.rail,
    ),
  ),
  networkGrid('network-rise-grid', "pump's pressure", () =>
    worstOf(
      (system) => solved(system).pumpRise,
      (system) => system.rise,
    ),
  ),
  {
    id: 'pump-required-delivery',
    section: 5,
    topic,
    what: 'delivery for 150 lb/h of gasoline at 745 kg/m3 with 20 % reserve',
    got: () => requiredDelivery(150 * POUND_PER_HOUR, 745) / LITER_PER_HOUR,
    expected: 109.5927873825503,
    unit: 'L/h',
    tolerance: { relative: 1e-9 },
    source: "GNU units 2.22: '150 lb/hour / (745 kg/m3) * 1.2' 'l/hour'",
  },
  {
    id: 'pump-required-pressure',
    section: 5,
    topic,
    what: 'pump pressure for 58 psi over 12 psi of boost, 14.51444 kPa in the feed, 10 kPa in the filter, 1 m of rise, 745 kg/m3',
    got: () =>
      requiredPressure({
        setting: 58 * PSI,
        reference: 12 * PSI,
        feedLoss: 14514.44,
        filterLoss: 10e3,
        rise: 1,
        density: 745,
      }) / PSI,
    expected: 74.6151579957,
    unit: 'psi',
    tolerance: { relative: 1e-9 },
    source: "GNU units 2.22: '70 psi + 14.51444 kPa + 10 kPa + 745 kg/m3 * gravity * 1 m' 'psi'",
  },
  {
    id: 'pump-current-from-power',
    section: 5,
    topic,
    what: 'current of a pump that delivers 200 L/h at 300 kPa from 13.5 V at 20 % efficiency',
    got: () => currentFromPower(300e3, 200 * LITER_PER_HOUR, 13.5, 0.2),
    expected: 6.172839506,
    unit: 'A',
    tolerance: { relative: 1e-9 },
    source: "GNU units 2.22: '300 kPa * 200 l/hour / (0.2 * 13.5 V)' 'A'",
  },
  {
    id: 'pump-voltage-between-curves',
    section: 5,
    topic,
    what: 'flow at 300 kPa and 12.5 V between curves of 220 L/h at 13.5 V and 180 L/h at 12 V',
    got: () => {
      const points = (flow: number) => [
        { pressure: 0, flow: (flow + 30) * LITER_PER_HOUR },
        { pressure: 300e3, flow: flow * LITER_PER_HOUR },
      ];
      const pump = pumpFromTests([
        { voltage: 13.5, points: points(220) },
        { voltage: 12, points: points(180) },
      ]);
      return pumpFlow(pump, 300e3, 12.5).flow / LITER_PER_HOUR;
    },
    expected: 193.33333333333334,
    unit: 'L/h',
    tolerance: { relative: 1e-9 },
    source: 'numpy.interp(12.5, [12, 13.5], [180, 220])',
  },
  {
    id: 'network-filter-quadratic',
    section: 5,
    topic,
    what: 'loss at 200 L/h of a mesh that loses 9 kPa at 300 L/h with the square of the flow',
    got: () => filterLoss({ flow: 300 * LITER_PER_HOUR, loss: 9e3, law: 'quadratic' }, 200 * LITER_PER_HOUR),
    expected: 4000,
    unit: 'Pa',
    tolerance: { relative: 1e-12 },
    source: 'square law, exact arithmetic',
  },
  {
    id: 'network-return-loss',
    section: 5,
    topic,
    what: 'back-pressure of 5 m of 7.9375 mm return line at 200 L/h of gasoline, the engine standing',
    got: () => lineLoss({ diameter: 0.0079375, length: 5, roughness: 1.5e-6 }, gasoline, 200 * LITER_PER_HOUR).friction,
    expected: 8582.28,
    unit: 'Pa',
    tolerance: { relative: 0.01 },
    source: firstSetRow('L12').source,
  },
];
