import { powerSupported } from '../engineering/demand.ts';
import { type Line, type Liquid, lineLoss, velocity, wayLoss } from '../engineering/lines.ts';
import { type Filter, filterLoss, type OperatingPoint, solveNetwork } from '../engineering/network.ts';
import { pumpsFlow } from '../engineering/pump.ts';
import {
  requiredDelivery as requiredDeliveryOf,
  requiredPressure as requiredPressureOf,
} from '../engineering/pump-duty.ts';
import { hotFuelDensity } from './fuel.ts';
import { feedSide, isExternal, pumps, returnWay } from './fuel-network.ts';
import { pumpDemand } from './nitrous.ts';
import { choose, fact, field, figure, limit, type Node, passes } from './node.ts';
import {
  atSetting,
  demandVolume,
  hungriest,
  idleRailBehindFeed,
  idling,
  liquid,
  railBehindFeed,
  standing,
} from './operating-points.ts';
import { fullPower } from './power.ts';
import {
  fullLoadReference,
  hasReturn,
  idleRailSet,
  isDeadHead,
  isInTank,
  railPressureSet,
  regulatorPressure,
} from './regulator.ts';

const PUMP = ['fuel-system.pump', 'fuel-system', 'stages'] as const;
const LINES = ['fuel-system.feed', 'fuel-system.return', 'fuel-system'] as const;

const NETWORK_SOURCE =
  'pressure balance and continuity; Darcy-Weisbach with Colebrook (1939); pump curve: Fritsch and Carlson (1980)';

const reserve = limit('pump-reserve');

export const requiredDelivery = figure({
  id: 'required-delivery',
  symbol: 'Q_req',
  name: 'delivery the pump must have',
  dimension: 'volume-flow',
  formula: 'm_f / rho_hot * (1 + reserve)',
  source: 'mass balance; common practice: 20 % reserve',
  home: PUMP,
  from: { pumpDemand, hotFuelDensity, reserve },
  compute: ({ pumpDemand, hotFuelDensity, reserve }) => requiredDeliveryOf(pumpDemand, hotFuelDensity, reserve),
});

export const pumpDelivery = figure({
  id: 'pump-delivery',
  symbol: 'Q_p',
  name: 'delivery of the pump at that pressure and voltage',
  dimension: 'volume-flow',
  formula: 'solved: pump curve(p) = flow at which lines, filter and regulator need p',
  source: NETWORK_SOURCE,
  home: PUMP,
  notes: ({ hungriest, atSetting }) => deliveryNotes(hungriest, atSetting),
  from: { hungriest, atSetting },
  compute: ({ atSetting }) => atSetting.delivered,
});

function deliveryNotes({ regulation }: OperatingPoint, { extrapolated, estimated }: OperatingPoint): string[] {
  return [
    ...(estimated ? ['flow scaled with voltage from the rated curve: an estimate, common practice'] : []),
    ...(extrapolated ? ['read outside the points of the pump curve'] : []),
    ...(regulation === 'sags' ? ['the pump cannot hold the regulator at its setting: the pressure sags'] : []),
    ...(regulation === 'starved' ? ['the pump cannot give the flow the engine asks for'] : []),
    ...(regulation === 'backed-up' ? ['the return line backs up and lifts the pressure over the setting'] : []),
  ];
}

/** Any liquid, kg/m3 and m2/s: without lines nothing depends on it. */
const WITHOUT_LINES = { density: 745, viscosity: 0.6e-6 };

export const pumpDeliveryAlone = figure({
  id: 'pump-delivery-alone',
  symbol: 'Q_p0',
  name: 'delivery of the pump at the set pressure, were nothing lost in lines and filters',
  dimension: 'volume-flow',
  formula: 'pump curve(p_set + reference)',
  source: NETWORK_SOURCE,
  home: ['fuel-system.pump'],
  from: { pumps, regulatorPressure, fullLoadReference },
  compute: ({ pumps, regulatorPressure, fullLoadReference }) => {
    const bare = { suction: [], preFilter: undefined, feed: [], filter: undefined, return: [] };
    const liquid = WITHOUT_LINES;
    const regulator = { setting: regulatorPressure, reference: fullLoadReference, place: 'rail' as const };
    return solveNetwork({ ...bare, pumps, liquid, regulator }, 0).delivered;
  },
});

export const pumpMargin = figure({
  id: 'pump-margin',
  symbol: 'margin',
  name: 'pump flow to spare, after reserve',
  dimension: 'ratio',
  formula: 'Q_p / Q_req - 1',
  source: 'definition',
  home: PUMP,
  from: { pumpDelivery, requiredDelivery },
  compute: ({ pumpDelivery, requiredDelivery }) => pumpDelivery / requiredDelivery - 1,
});

/** What feed line and filter have to carry ahead of the regulator: nothing where it is in the tank. */
const aheadOfRegulator = choose({
  id: 'ahead-of-the-regulator',
  from: { isInTank },
  among: ({ isInTank }) => (isInTank ? nothingAhead : feedSide),
});
const nothingAhead = fact({ id: 'nothing-ahead', from: {}, compute: () => ({ feed: [], filter: undefined }) });

/** Pressure, Pa, that lines, filter and regulator ask of the pump at a flow, m3/s. Source: `NETWORK_SOURCE`. */
function pressureAskedAt(
  flow: number,
  system: {
    aheadOfRegulator: { feed: readonly Line[]; filter: Filter | undefined };
    regulatorPressure: number;
    fullLoadReference: number;
    hotFuelDensity: number;
    liquid: Liquid;
  },
): number {
  const { feed, filter } = system.aheadOfRegulator;
  return requiredPressureOf({
    setting: system.regulatorPressure,
    reference: system.fullLoadReference,
    feedLoss: feed.reduce((sum, line) => sum + lineLoss(line, system.liquid, flow).friction, 0),
    filterLoss: filter ? filterLoss(filter, flow) : 0,
    rise: feed.reduce((sum, line) => sum + (line.rise ?? 0), 0),
    density: system.hotFuelDensity,
  });
}

export const requiredPressure = figure({
  id: 'required-pressure',
  symbol: 'p_req',
  name: 'pressure the pump must have at the required delivery',
  dimension: 'pressure',
  formula: ({ isInTank }) =>
    isInTank ? 'p_set + reference' : 'p_set + reference + losses of feed line and filter at Q_req + rho g rise',
  source: NETWORK_SOURCE,
  home: PUMP,
  from: { requiredDelivery, aheadOfRegulator, isInTank, regulatorPressure, fullLoadReference, hotFuelDensity, liquid },
  compute: ({ requiredDelivery, ...system }) => pressureAskedAt(requiredDelivery, system),
});

/** Flows at which the curve of the system is worked out. */
const FLOWS = 6;

/** `pressureAskedAt` over all that the pump can deliver. */
export const systemCurve = fact({
  id: 'system-curve',
  from: { pumps, aheadOfRegulator, regulatorPressure, fullLoadReference, hotFuelDensity, liquid },
  compute: ({ pumps, ...system }) => {
    const most = pumpsFlow(pumps, 0, true).flow;
    return Array.from({ length: FLOWS + 1 }, (_, step) => {
      const flow = (most * step) / FLOWS;
      return { flow, pressure: pressureAskedAt(flow, system) };
    });
  },
});

export const powerFed = figure({
  id: 'power-fed',
  symbol: 'P_pump',
  name: 'most power the pump feeds with the reserve kept',
  dimension: 'power',
  formula: 'Q_p / (1 + reserve) * rho_hot / (m_f / P)',
  source: 'mass balance; fuel in proportion to power, that of nitrous counted',
  home: PUMP,
  from: { pumpDelivery, reserve, hotFuelDensity, pumpDemand, fullPower },
  compute: (v) => powerSupported((v.pumpDelivery / (1 + v.reserve)) * v.hotFuelDensity, v.pumpDemand / v.fullPower),
});

/** A solved pressure, Pa: what is left of nothing by the last step of the solver is nothing. */
function settled(pressure: number): number {
  return Math.abs(pressure) < 0.01 ? 0 : pressure;
}

const NODE = { dimension: 'pressure', formula: 'operating point of the fuel system', source: NETWORK_SOURCE } as const;

export const pumpPressure = figure({
  ...NODE,
  id: 'pump-pressure',
  symbol: 'p_pump',
  name: 'pressure the pump must add at full demand',
  home: PUMP,
  from: { atSetting },
  compute: ({ atSetting }) => atSetting.pumpRise,
});

export const pumpInletPressure = figure({
  ...NODE,
  id: 'pump-inlet-pressure',
  symbol: 'p_in',
  name: 'pressure at the pump inlet at full demand',
  home: [...LINES, 'measured.pump-inlet-pressure'],
  from: { hungriest },
  compute: ({ hungriest }) => hungriest.pressures.pumpInlet,
});

export const pumpOutletPressure = figure({
  ...NODE,
  id: 'pump-outlet-pressure',
  symbol: 'p_out',
  name: 'pressure at the pump outlet at full demand',
  home: LINES,
  from: { hungriest },
  compute: ({ hungriest }) => hungriest.pressures.pumpOutlet,
});

export const filterInletPressure = figure({
  ...NODE,
  id: 'filter-inlet-pressure',
  symbol: 'p_filter',
  name: 'pressure ahead of the fine filter at full demand',
  home: LINES,
  from: { hungriest },
  compute: ({ hungriest }) => hungriest.pressures.filterInlet,
});

export const feedLoss = figure({
  ...NODE,
  id: 'feed-loss',
  symbol: 'dp_feed',
  name: 'pressure that the feed line takes at full demand',
  formula: 'p_out - p_filter',
  home: ['fuel-system.feed'],
  from: { pumpOutletPressure, filterInletPressure },
  compute: ({ pumpOutletPressure, filterInletPressure }) => pumpOutletPressure - filterInletPressure,
});

export const railPressure = figure({
  ...NODE,
  id: 'rail-pressure',
  symbol: 'p_rail',
  name: 'pressure that reaches the injectors at full demand',
  home: [
    'fuel-system.feed',
    'fuel-system.return',
    'fuel-system',
    'fuel-system.regulator',
    'throttle-body.injectors',
    'measured.rail-pressure',
  ],
  from: { hungriest },
  compute: ({ hungriest }) => settled(hungriest.pressures.rail),
});

export const idleRailPressure = figure({
  ...NODE,
  id: 'idle-rail-pressure',
  symbol: 'p_rail,i',
  name: 'pressure at the injectors at idle',
  home: [
    'fuel-system.feed',
    'fuel-system.return',
    'fuel-system',
    'fuel-system.regulator',
    'measured.idle-rail-pressure',
  ],
  from: { idling },
  compute: ({ idling }) => idling.pressures.rail,
});

const BEHIND = {
  dimension: 'pressure',
  formula: 'p_set + reference - losses of feed line and filter at the flow that is burned - rho g rise',
  source: NETWORK_SOURCE,
  home: ['throttle-body.injectors', 'fuel-system.feed', 'fuel-system.regulator'],
  when: isInTank,
} as const;

export const railBehindFeedFigure = figure({
  ...BEHIND,
  id: 'rail-pressure-behind-feed',
  symbol: 'p_rail',
  name: 'pressure at the injectors at full load, behind the feed line from the regulator in the tank',
  from: { railBehindFeed },
  compute: ({ railBehindFeed }) => railBehindFeed,
});

export const idleRailBehindFeedFigure = figure({
  ...BEHIND,
  id: 'idle-rail-pressure-behind-feed',
  symbol: 'p_rail,i',
  name: 'pressure at the injectors at idle, behind the feed line from the regulator in the tank',
  from: { idleRailBehindFeed },
  compute: ({ idleRailBehindFeed }) => idleRailBehindFeed,
});

/**
 * Gauge pressure, Pa, that stands at the injectors while the pump does its part: a return that backs up lifts it over the
 * set pressure, a long feed from a regulator in the tank lowers it. A pump that is too small is a finding of its own.
 */
function railOf(
  id: string,
  point: Node<OperatingPoint>,
  backedUp: Node<number>,
  behind: Node<number>,
  set: Node<number>,
) {
  return choose({
    id,
    from: { isInTank, isBackedUp: isBackedUp(point) },
    among: ({ isInTank, isBackedUp }) => {
      if (isBackedUp) return backedUp;
      return isInTank ? behind : set;
    },
  });
}

/** Whether the return backs up; what the point was worked out of shows only where it does. */
function isBackedUp(point: Node<OperatingPoint>): Node<boolean> {
  return passes(`backed-up ${point.id}`, point, ({ regulation }) => regulation === 'backed-up');
}

export const railAtInjectors = railOf(
  'rail-pressure-at-the-injectors',
  hungriest,
  railPressure,
  railBehindFeedFigure,
  railPressureSet,
);
export const idleRailAtInjectors = railOf(
  'idle-rail-pressure-at-the-injectors',
  idling,
  idleRailPressure,
  idleRailBehindFeedFigure,
  idleRailSet,
);

export const highestPressure = figure({
  ...NODE,
  id: 'highest-pressure',
  symbol: 'p_high',
  name: 'highest pressure in the feed line',
  home: ['fuel-system.feed', 'fuel-system.return', 'fuel-system', 'fuel-system.pump.relief-pressure'],
  from: { hungriest, idling, standing },
  compute: ({ hungriest, idling, standing }) =>
    Math.max(hungriest.pressures.pumpOutlet, idling.pressures.pumpOutlet, standing.pressures.pumpOutlet),
});

/** Whether the surplus goes back to the tank, by a line or in the tank itself. */
const spills = fact({ id: 'spills', from: { isDeadHead }, compute: ({ isDeadHead }) => !isDeadHead });

export const returnFlow = figure({
  id: 'return-flow',
  symbol: 'Q_r',
  name: 'flow that returns to the tank at idle',
  dimension: 'volume-flow',
  formula: 'delivery at idle - consumption at idle',
  source: 'continuity',
  home: LINES,
  when: spills,
  from: { idling },
  compute: ({ idling }) => idling.returned,
});

const RETURN = {
  dimension: 'pressure',
  home: LINES,
  notes: ['all pumps running, the engine standing: the worst case'],
  when: hasReturn,
} as const;

export const returnFriction = figure({
  ...RETURN,
  id: 'return-friction',
  symbol: 'dp_r',
  name: 'pressure lost to friction in the return line at full bypass',
  formula: 'Darcy-Weisbach with the whole delivery in the return line',
  source: NETWORK_SOURCE,
  from: { standing, returnWay, liquid },
  compute: ({ standing, returnWay, liquid }) => wayLoss(returnWay, liquid, standing.returned).friction,
});

export const returnHead = figure({
  ...RETURN,
  id: 'return-head',
  symbol: 'dp_z',
  name: 'pressure the return line takes to rise, below zero where it falls to the tank',
  formula: 'rho g (z_tank - z_rail)',
  source: 'hydrostatics',
  notes: [],
  from: { returnWay, liquid },
  compute: ({ returnWay, liquid }) => wayLoss(returnWay, liquid, 0).static,
});

export const returnBackPressure = figure({
  ...RETURN,
  id: 'return-back-pressure',
  home: [...LINES, 'measured.return-back-pressure'],
  symbol: 'p_back',
  name: 'back-pressure of the return line at full bypass',
  formula: 'max(0, dp_r + dp_z)',
  source: 'pressure balance',
  from: { returnFriction, returnHead },
  compute: ({ returnFriction, returnHead }) => Math.max(0, returnFriction + returnHead),
});

export const returnBackPressureShare = figure({
  id: 'return-back-pressure-share',
  symbol: 's_back',
  name: 'back-pressure as a share of the set pressure',
  dimension: 'ratio',
  formula: 'p_back / p_set',
  source: 'definition',
  home: LINES,
  from: { returnBackPressure, regulatorPressure },
  compute: ({ returnBackPressure, regulatorPressure }) => returnBackPressure / regulatorPressure,
});

/** What flows through the feed line: all the pump gives where a return brings the surplus back, else what the engine takes. */
export const feedFlow = choose({
  id: 'feed-flow',
  from: { hasReturn },
  among: ({ hasReturn }) => (hasReturn ? pumpDelivery : demandVolume),
});

/** What flows through the pump: only what the engine takes behind a dead-head regulator. */
export const pumpFlow = choose({
  id: 'pump-flow',
  from: { isDeadHead },
  among: ({ isDeadHead }) => (isDeadHead ? demandVolume : pumpDelivery),
});

function lineVelocity<const Id extends string>(
  id: Id,
  line: 'feed' | 'return' | 'suction',
  flow: Node<number>,
  when?: Node<boolean>,
) {
  return figure({
    id,
    symbol: `v_${line}`,
    name: `fuel velocity in the ${line} line`,
    dimension: 'velocity',
    formula: 'Q / (pi d^2 / 4)',
    source: 'continuity',
    home: [`fuel-system.${line}`],
    ...(when && { when }),
    from: { flow, diameter: field(`fuel-system.${line}.inside-diameter`, 'd') },
    compute: ({ flow, diameter }) => velocity(flow, diameter),
  });
}

export const feedVelocity = lineVelocity('feed-velocity', 'feed', feedFlow);
export const returnVelocity = lineVelocity('return-velocity', 'return', pumpFlow, hasReturn);
export const suctionVelocity = lineVelocity('suction-velocity', 'suction', pumpFlow, isExternal);
