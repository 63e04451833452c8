import { powerSupported } from '../engineering/demand.ts';
import { lineLoss, velocity } from '../engineering/lines.ts';
import { type FuelNetwork, filterLoss, type OperatingPoint, solveNetwork } from '../engineering/network.ts';
import { requiredDelivery as requiredDeliveryOf, requiredPressure as requiredPressureOf } from '../engineering/pump.ts';
import { fuelViscosity, hotFuelDensity } from './fuel.ts';
import { feedSide, isBypass, isDeadHead, isExternal, piping, pumps, returnLine } from './fuel-network.ts';
import { fullLoadReference, regulatorPressure } from './full-load-injection.ts';
import { idleReference } from './idle-injection.ts';
import { stagePower } from './induction.ts';
import { pumpDemand } from './nitrous.ts';
import { choose, fact, field, figure, limit, type Node } from './node.ts';

const PUMP = ['fuel-system.pump', 'fuel-system', 'stages'] as const;
const LINES = ['fuel-system.feed', 'fuel-system.return', 'fuel-system'] as const;

const NETWORK_SOURCE = 'pressure balance and continuity; Darcy-Weisbach with Colebrook; pump curve: Fritsch-Carlson';

const reserve = limit('pump-reserve');

export const demandVolume = figure({
  id: 'demand-volume',
  symbol: 'Q_f',
  name: 'fuel demand by volume',
  dimension: 'volume-flow',
  formula: 'm_f / rho_hot',
  source: 'mass balance; density of the hottest fuel, the larger volume',
  home: ['stages', 'fuel-system.pump'],
  from: { pumpDemand, hotFuelDensity },
  compute: ({ pumpDemand, hotFuelDensity }) => pumpDemand / hotFuelDensity,
});

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

/** The fuel system with the regulator referred to a gauge pressure, Pa. */
function networkWith(id: string, reference: Node<number>) {
  return fact({
    id,
    from: { piping, pumps, regulatorPressure, reference, hotFuelDensity, fuelViscosity },
    compute: ({ piping, pumps, regulatorPressure, reference, hotFuelDensity, fuelViscosity }): FuelNetwork => ({
      ...piping,
      pumps,
      liquid: { density: hotFuelDensity, viscosity: fuelViscosity },
      regulator: { setting: regulatorPressure, reference, place: 'rail' },
    }),
  });
}

const atmosphere = fact({ id: 'atmosphere', from: {}, compute: () => 0 });

const fullLoadNetwork = networkWith('network-at-full-load', fullLoadReference);
const idleNetwork = networkWith('network-at-idle', idleReference);
const standingNetwork = networkWith('network-with-the-engine-off', atmosphere);

/** Where the fuel system settles while the engine takes the most. */
export const hungriest = fact({
  id: 'operating-point-at-full-load',
  from: { network: fullLoadNetwork, demandVolume },
  compute: ({ network, demandVolume }) => solveNetwork(network, demandVolume),
});

/** What the pump could give while the regulator stands at its setting, also where that is less than the demand. */
export const atSetting = fact({
  id: 'operating-point-at-the-setting',
  from: { network: fullLoadNetwork, hungriest },
  compute: ({ network, hungriest }): OperatingPoint => {
    const isHeld = hungriest.regulation === 'holds' || hungriest.regulation === 'backed-up';
    return isHeld && network.return ? hungriest : solveNetwork({ ...network, return: [] }, 0);
  },
});

/** Fuel at idle as a share of that at full power, for the pressures at idle. Common practice, from memory: 2 to 5 %. */
const IDLE_SHARE = 0.03;

export const idling = fact({
  id: 'operating-point-at-idle',
  from: { network: idleNetwork, demandVolume },
  compute: ({ network, demandVolume }) => solveNetwork(network, demandVolume * IDLE_SHARE, false),
});

/** All pumps running, the engine standing. */
export const standing = fact({
  id: 'operating-point-with-the-engine-off',
  from: { network: standingNetwork },
  compute: ({ network }) => solveNetwork(network, 0),
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

export const requiredPressure = figure({
  id: 'required-pressure',
  symbol: 'p_req',
  name: 'pressure the pump must have at the required delivery',
  dimension: 'pressure',
  formula: 'p_set + reference + losses of feed line and filter at Q_req + rho g rise',
  source: NETWORK_SOURCE,
  home: PUMP,
  from: { requiredDelivery, feedSide, regulatorPressure, fullLoadReference, hotFuelDensity, fuelViscosity },
  compute: ({ requiredDelivery: flow, feedSide: { feed, filter }, ...v }) => {
    const liquid = { density: v.hotFuelDensity, viscosity: v.fuelViscosity };
    return requiredPressureOf({
      setting: v.regulatorPressure,
      reference: v.fullLoadReference,
      feedLoss: feed.reduce((sum, line) => sum + lineLoss(line, liquid, flow).friction, 0),
      filterLoss: filter ? filterLoss(filter, flow) : 0,
      rise: feed.reduce((sum, line) => sum + line.rise, 0),
      density: v.hotFuelDensity,
    });
  },
});

export const powerFed = figure({
  id: 'power-fed',
  symbol: 'P_pump',
  name: 'most power the pump feeds with the reserve kept',
  dimension: 'power',
  formula: 'Q_p / (1 + reserve) * rho_hot / (m_f / P)',
  source: 'mass balance; fuel in proportion to power',
  home: PUMP,
  from: { pumpDelivery, reserve, hotFuelDensity, pumpDemand, stagePower },
  compute: (v) => powerSupported((v.pumpDelivery / (1 + v.reserve)) * v.hotFuelDensity, v.pumpDemand / v.stagePower),
});

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
  home: LINES,
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

export const railPressure = figure({
  ...NODE,
  id: 'rail-pressure',
  symbol: 'p_rail',
  name: 'pressure that reaches the injectors at full demand',
  home: ['fuel-system.feed', 'fuel-system.return', 'fuel-system', 'fuel-system.regulator', 'throttle-body.injectors'],
  from: { hungriest },
  compute: ({ hungriest }) => hungriest.pressures.rail,
});

export const idleRailPressure = figure({
  ...NODE,
  id: 'idle-rail-pressure',
  symbol: 'p_rail,i',
  name: 'pressure at the injectors at idle',
  home: ['fuel-system.feed', 'fuel-system.return', 'fuel-system', 'fuel-system.regulator'],
  from: { idling },
  compute: ({ idling }) => idling.pressures.rail,
});

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

export const returnFlow = figure({
  id: 'return-flow',
  symbol: 'Q_r',
  name: 'flow that returns to the tank at idle',
  dimension: 'volume-flow',
  formula: 'delivery at idle - consumption at idle',
  source: 'continuity',
  home: LINES,
  when: isBypass,
  from: { idling, returnLine },
  compute: ({ idling }) => idling.returned,
});

export const returnBackPressure = figure({
  id: 'return-back-pressure',
  symbol: 'p_back',
  name: 'back-pressure of the return line at full bypass',
  dimension: 'pressure',
  formula: 'Darcy-Weisbach with the whole delivery in the return line',
  source: NETWORK_SOURCE,
  home: LINES,
  notes: ['all pumps running, the engine standing: the worst case'],
  when: isBypass,
  from: { standing, returnLine },
  compute: ({ standing }) => Math.max(0, standing.pressures.regulatorOutlet ?? 0),
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

/** What flows through the feed line: all the pump gives, or only what the engine takes behind a dead-head regulator. */
export const feedFlow = choose({
  id: 'feed-flow',
  from: { isDeadHead },
  among: ({ isDeadHead }) => (isDeadHead ? demandVolume : pumpDelivery),
});

function lineVelocity<const Id extends string>(
  id: Id,
  line: 'feed' | 'return' | 'suction',
  when: Node<boolean> | undefined,
) {
  return figure({
    id,
    symbol: `v_${line}`,
    name: `fuel velocity in the ${line} line`,
    dimension: 'velocity',
    formula: 'Q_p / (pi d^2 / 4)',
    source: 'continuity',
    home: [`fuel-system.${line}`],
    ...(when && { when }),
    from: { feedFlow, diameter: field(`fuel-system.${line}.inside-diameter`, 'd') },
    compute: ({ feedFlow, diameter }) => velocity(feedFlow, diameter),
  });
}

export const feedVelocity = lineVelocity('feed-velocity', 'feed', undefined);
export const returnVelocity = lineVelocity('return-velocity', 'return', undefined);
export const suctionVelocity = lineVelocity('suction-velocity', 'suction', isExternal);
