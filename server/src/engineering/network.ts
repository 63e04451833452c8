import { finite, notNegative, positive } from './bounds.ts';
import { type Line, type Liquid, lineLoss, suctionLineLoss, wayLoss } from './lines.ts';
import { type PumpUnit, pumpsFlow, zeroFlowPressureOf } from './pump.ts';
import { findRoot } from './roots.ts';

/** A filter known by one point, loss in Pa at a flow in m3/s; paper loses in proportion to flow, a mesh with its square. */
export type Filter = { readonly flow: number; readonly loss: number; readonly law: 'linear' | 'quadratic' };

/**
 * A pressure regulator. `setting`: pressure it holds over its reference, Pa. `reference`: gauge pressure it refers to,
 * Pa: 0 for the atmosphere, the manifold's when it is connected to it. `place`: it keeps the pressure at the rail, or at
 * the pump's outlet (before the feed line).
 */
export type Regulator = {
  readonly setting: number;
  readonly reference: number;
  readonly place: 'rail' | 'pump';
  /** Pressure the fully open regulator itself needs, Pa; common practice, see `regulatorMinimumDrop`. */
  readonly minimumDrop?: number | undefined;
};

/**
 * The fuel system from tank to rail and back, in the order the fuel goes: suction lines, pre-filter, pumps, feed lines,
 * filter, rail, regulator, return lines, tank. Without return lines the regulator is a dead-head one that throttles.
 * A line in several pieces is given piece by piece.
 */
export type FuelNetwork = {
  readonly liquid: Liquid;
  /** Gauge pressure in the tank, Pa: 0 when vented. */
  readonly tankPressure?: number | undefined;
  readonly suction: readonly Line[];
  readonly preFilter?: Filter | undefined;
  readonly pumps: readonly PumpUnit[];
  readonly feed: readonly Line[];
  readonly filter?: Filter | undefined;
  readonly regulator: Regulator;
  readonly return?: readonly Line[] | undefined;
};

/**
 * Gauge pressures, Pa, in the order the fuel goes. A dead-head regulator at the rail stands between filter outlet and
 * rail, otherwise these two are the same. No regulator outlet without a return line.
 */
export type NodePressures = {
  readonly tank: number;
  readonly pumpInlet: number;
  readonly pumpOutlet: number;
  readonly filterInlet: number;
  readonly filterOutlet: number;
  readonly rail: number;
  readonly regulatorOutlet: number | undefined;
};

/**
 * How the regulator stands: it holds its setting; the return line backs up and lifts the pressure over it; the pump
 * cannot reach it and the pressure sags; or the flow asked for does not even arrive without pressure.
 */
export type Regulation = 'holds' | 'backed-up' | 'sags' | 'starved';

/** Where the system settles: pressures in Pa gauge, flows in m3/s, delivered = consumed + returned. */
export type OperatingPoint = {
  readonly pressures: NodePressures;
  readonly delivered: number;
  readonly consumed: number;
  readonly returned: number;
  /** Pressure the pump adds, Pa. */
  readonly pumpRise: number;
  readonly regulation: Regulation;
  /** The pump is read outside its points. */
  readonly extrapolated: boolean;
  /** The pump's flow is scaled from another voltage. */
  readonly estimated: boolean;
};

/** Pressure that a fully open bypass regulator itself needs, Pa. */
export const regulatorMinimumDrop = { value: 10e3, source: 'common practice, no source' } as const;

/**
 * Loss of a filter, Pa, at a flow in m3/s, from its rated point. Source: Darcy's law (linear), orifice (quadratic).
 * @throws RangeError
 */
export function filterLoss(filter: Filter, flow: number): number {
  const share = notNegative(flow, 'The flow') / positive(filter.flow, "The filter's rated flow");
  return notNegative(filter.loss, "The filter's rated loss") * (filter.law === 'linear' ? share : share ** 2);
}

/**
 * The operating point of the fuel system while the engine takes `consumption`, m3/s. `stagedRun`: staged pumps are on.
 *
 * The pump's flow at the pressure it adds must equal the flow at which lines, filter and regulator need that pressure.
 * A bypass regulator holds its setting over its reference; the return line matters only once its back-pressure and the
 * regulator's own minimum drop exceed the setting. When the pump gives less than the engine takes at the setting, the
 * regulator is shut and the pressure falls until the pump gives that flow. Height differences count along the way.
 * Source: pressure balance and continuity; lines see `lineLoss`, ahead of the pump `suctionLineLoss`, pump see `pumpFlow`. Cavitation is not in it.
 * @throws RangeError for a quantity out of its range or a system without a running pump
 */
export function solveNetwork(network: FuelNetwork, consumption: number, stagedRun = true): OperatingPoint {
  notNegative(consumption, 'The fuel consumption');
  const system = prepare(network, stagedRun);
  const passing = passingFeed(system, consumption);
  const point = system.backPressure ? solveBypass(system, passing) : solveDeadHead(system, passing);
  return passing < consumption ? { ...point, regulation: 'starved' } : point;
}

/**
 * Gauge pressure, Pa, at the rail while the regulator stands at its setting and the engine takes `consumption`, m3/s: the
 * setting with its reference where the regulator keeps the rail; where it stands at the pump that less what feed line,
 * filter and height take of the consumption. Source: pressure balance; lines see `lineLoss`. @throws RangeError
 */
export function railAtSetting(
  { regulator, feed, filter, liquid }: Pick<FuelNetwork, 'regulator' | 'feed' | 'filter' | 'liquid'>,
  consumption: number,
): number {
  const held = positive(regulator.setting, "The regulator's setting") + regulator.reference;
  if (regulator.place === 'rail') return held;
  return held - linesLoss(feed, liquid, consumption) - (filter ? filterLoss(filter, consumption) : 0);
}

type System = {
  readonly pumps: readonly PumpUnit[];
  readonly stagedRun: boolean;
  readonly zeroFlowPressure: number;
  readonly flowAt: (pumpRise: number) => number;
  readonly tank: number;
  readonly setting: number;
  readonly minimumDrop: number;
  readonly place: 'rail' | 'pump';
  /** Pressure lost at a flow from the tank to the pump's inlet, from its outlet to the filter, and in the filter, Pa. */
  readonly suction: (flow: number) => number;
  readonly feed: (flow: number) => number;
  readonly filter: (flow: number) => number;
  /** Pressure at the regulator's outlet for a returned flow, Pa; none without a return line. */
  readonly backPressure: ((returned: number) => number) | undefined;
};

function prepare(network: FuelNetwork, stagedRun: boolean): System {
  const { liquid, pumps, preFilter, filter, regulator } = network;
  const back = network.return;
  const tank = finite(network.tankPressure ?? 0, 'The pressure in the tank');
  const flowAt = (pumpRise: number) => pumpsFlow(pumps, pumpRise, stagedRun).flow;
  if (flowAt(0) <= 0) throw new RangeError('No pump runs, so the fuel system has no flow.');
  const setting = positive(regulator.setting, "The regulator's setting");
  const reference = finite(regulator.reference, "The regulator's reference pressure");
  return {
    pumps,
    stagedRun,
    zeroFlowPressure: zeroFlowPressureOf(pumps, stagedRun),
    flowAt,
    tank,
    setting: positive(setting + reference, "The regulator's setting with its reference"),
    minimumDrop: notNegative(regulator.minimumDrop ?? regulatorMinimumDrop.value, "The regulator's minimum drop"),
    place: regulator.place,
    suction: (flow) =>
      linesLoss(network.suction, liquid, flow, suctionLineLoss) + (preFilter ? filterLoss(preFilter, flow) : 0),
    feed: (flow) => linesLoss(network.feed, liquid, flow),
    filter: (flow) => (filter ? filterLoss(filter, flow) : 0),
    backPressure: back ? (returned) => tank + linesLoss(back, liquid, returned) : undefined,
  };
}

function linesLoss(lines: readonly Line[], liquid: Liquid, flow: number, lossOf = lineLoss): number {
  const loss = wayLoss(lines, liquid, flow, lossOf);
  return loss.friction + loss.static;
}

/** What gets through the feed line behind a regulator at the pump: no more than its setting can push. */
function passingFeed(system: System, consumption: number): number {
  const rail = (flow: number) => alongFeed(system, system.setting, flow).rail;
  if (system.place === 'rail' || rail(consumption) >= 0) return consumption;
  return rail(0) <= 0 ? 0 : findRoot(rail, 0, consumption, 1e-12);
}

function solveBypass(system: System, consumption: number): OperatingPoint {
  const pressureHeld = (flow: number) =>
    Math.max(system.setting, (system.backPressure?.(flow - consumption) ?? 0) + system.minimumDrop);
  const riseNeeded = (flow: number) => riseFor(system, pressureHeld(flow), flow);
  const least = riseNeeded(consumption);
  const flowAtLeast = system.flowAt(least);
  if (flowAtLeast < consumption) return solveShut(system, consumption);
  const most = riseNeeded(flowAtLeast);
  const balance = (rise: number) => rise - riseNeeded(Math.max(consumption, system.flowAt(rise)));
  const rise = most > least ? findRoot(balance, least, most + 1e-3, 1e-3) : least;
  const returned = Math.max(0, system.flowAt(rise) - consumption);
  const delivered = consumption + returned;
  const held = pressureHeld(delivered);
  const pumpInlet = system.tank - system.suction(delivered);
  const pressures = { tank: system.tank, pumpInlet, regulatorOutlet: system.backPressure?.(returned) };
  const regulation = held > system.setting ? 'backed-up' : 'holds';
  if (system.place === 'pump') {
    const downstream = alongFeed(system, held, consumption);
    return settled(system, { ...pressures, pumpOutlet: held, ...downstream }, consumption, returned, rise, regulation);
  }
  const filterInlet = held + system.filter(delivered);
  const pumpOutlet = filterInlet + system.feed(delivered);
  const upstream = { pumpOutlet, filterInlet, filterOutlet: held, rail: held };
  return settled(system, { ...pressures, ...upstream }, consumption, returned, rise, regulation);
}

function solveDeadHead(system: System, consumption: number): OperatingPoint {
  const needed = riseFor(system, system.setting, consumption);
  if (system.flowAt(needed) < consumption) return solveShut(system, consumption);
  const rise = riseAtFlow(system, consumption);
  const pumpInlet = system.tank - system.suction(consumption);
  const pumpOutlet = pumpInlet + rise;
  const downstream =
    system.place === 'pump'
      ? alongFeed(system, system.setting, consumption)
      : { ...alongFeed(system, pumpOutlet, consumption), rail: system.setting };
  const pressures = { tank: system.tank, pumpInlet, pumpOutlet, ...downstream, regulatorOutlet: undefined };
  return settled(system, pressures, consumption, 0, rise, 'holds');
}

/** The regulator does nothing: all the pump gives goes to the engine, at the pressure that is left. */
function solveShut(system: System, consumption: number): OperatingPoint {
  const loss = (flow: number) => riseFor(system, 0, flow);
  if (system.flowAt(0) >= consumption) {
    const rise = riseAtFlow(system, consumption);
    if (rise > loss(consumption)) return shut(system, consumption, rise, 'sags');
  }
  const top = system.zeroFlowPressure;
  const balance = (rise: number) => rise - loss(system.flowAt(rise));
  if (balance(top) <= 0) return shut(system, 0, top, 'starved');
  const rise = balance(0) < 0 ? findRoot(balance, 0, top, 1e-3) : 0;
  return shut(system, Math.min(consumption, system.flowAt(rise)), rise, 'starved');
}

function shut(system: System, flow: number, rise: number, regulation: Regulation): OperatingPoint {
  const pumpInlet = system.tank - system.suction(flow);
  const pumpOutlet = pumpInlet + rise;
  const downstream = alongFeed(system, pumpOutlet, flow);
  const regulatorOutlet = system.backPressure?.(0);
  const pressures = { tank: system.tank, pumpInlet, pumpOutlet, ...downstream, regulatorOutlet };
  return settled(system, pressures, flow, 0, rise, regulation);
}

function settled(
  system: System,
  pressures: NodePressures,
  consumed: number,
  returned: number,
  pumpRise: number,
  regulation: Regulation,
): OperatingPoint {
  const { extrapolated, estimated } = pumpsFlow(system.pumps, pumpRise, system.stagedRun);
  const delivered = consumed + returned;
  return { pressures, delivered, consumed, returned, pumpRise, regulation, extrapolated, estimated };
}

/** Pressures downstream of the feed line's start at a flow, with no regulator on the way. */
function alongFeed(system: System, start: number, flow: number) {
  const filterInlet = start - system.feed(flow);
  const filterOutlet = filterInlet - system.filter(flow);
  return { filterInlet, filterOutlet, rail: filterOutlet };
}

/** Pressure the pump must add for the regulator to stand at a pressure, Pa gauge, with a flow through the pump. */
function riseFor(system: System, pressure: number, flow: number): number {
  const toRegulator = system.place === 'pump' && pressure > 0 ? 0 : system.feed(flow) + system.filter(flow);
  return Math.max(0, pressure + toRegulator + system.suction(flow) - system.tank);
}

/** Pressure rise at which the pumps just give the flow. */
function riseAtFlow(system: System, flow: number): number {
  const top = system.zeroFlowPressure;
  const excess = (rise: number) => system.flowAt(rise) - flow * (1 - 1e-9);
  if (flow <= 0 || excess(top) >= 0) return top;
  return excess(0) <= 0 ? 0 : findRoot(excess, 0, top, 1e-3);
}
