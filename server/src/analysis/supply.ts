import { powerSupported } from '../engineering/demand.ts';
import { lineLoss, velocity } from '../engineering/lines.ts';
import { type FuelNetwork, filterLoss, type OperatingPoint, solveNetwork } from '../engineering/network.ts';
import { requiredDelivery, requiredPressure } from '../engineering/pump.ts';
import type { AirTerms } from './air.ts';
import type { DemandTerms } from './demand.ts';
import type { ElectricalTerms } from './electrical.ts';
import { isKnown, type Maybe, numberOf } from './figure.ts';
import type { FuelTerms } from './fuel.ts';
import { networkOf, pumpOf } from './fuel-network.ts';
import { idleManifoldPressure } from './idle-injection.ts';
import type { Worksheet } from './worksheet.ts';

const PUMP = ['fuel-system.pump', 'fuel-system', 'stages'];
const LINES = ['fuel-system.feed', 'fuel-system.return', 'fuel-system'];

const NETWORK_SOURCE = 'pressure balance and continuity; Darcy-Weisbach with Colebrook; pump curve: Fritsch-Carlson';

export type SupplyTerms = { delivery: Maybe };

type Solution = Solved | { impossible: string };
type Solved = {
  network: FuelNetwork;
  hungriest: OperatingPoint;
  /** What the pump could give while the regulator stands at its setting, also where that is less than the demand. */
  atSetting: OperatingPoint;
  idle: OperatingPoint;
  standing: OperatingPoint;
};

/** Delivery the engine needs, what the pump gives, and the pressure at each node of the fuel system. */
export function supplyFigures(
  w: Worksheet,
  air: AirTerms,
  demand: DemandTerms,
  fuel: FuelTerms,
  electrical: ElectricalTerms,
): SupplyTerms {
  const consumption = w.figure(
    {
      id: 'demand-volume',
      symbol: 'Q_f',
      name: 'fuel demand by volume',
      dimension: 'volume-flow',
      formula: 'm_f / rho_hot',
      source: 'mass balance; density of the hottest fuel, the larger volume',
      home: ['stages', 'fuel-system.pump'],
    },
    [demand.pump, fuel.hotDensity],
    (mass, density) => mass / density,
  );
  const required = w.figure(
    {
      id: 'required-delivery',
      symbol: 'Q_req',
      name: 'delivery the pump must have',
      dimension: 'volume-flow',
      formula: 'm_f / rho_hot * (1 + reserve)',
      source: 'mass balance; common practice: 20 % reserve',
      home: PUMP,
    },
    [demand.pump, fuel.hotDensity, w.limit('pump-reserve')],
    requiredDelivery,
  );
  const inputs = networkInputs(w, air, fuel, electrical, consumption);
  const solution = solve(w, inputs);
  const solved = solvedOf(solution);
  const base = inputs.terms;
  const delivery = w.figure(
    {
      id: 'pump-delivery',
      symbol: 'Q_p',
      name: 'delivery of the pump at that pressure and voltage',
      dimension: 'volume-flow',
      formula: 'solved: pump curve(p) = flow at which lines, filter and regulator need p',
      source: NETWORK_SOURCE,
      home: PUMP,
      notes: solved ? deliveryNotes(solved) : [],
    },
    base,
    () => possible(solution).atSetting.delivered,
  );
  w.figure(
    {
      id: 'pump-delivery-alone',
      symbol: 'Q_p0',
      name: 'delivery of the pump at the set pressure, were nothing lost in lines and filters',
      dimension: 'volume-flow',
      formula: 'pump curve(p_set + reference)',
      source: NETWORK_SOURCE,
      home: ['fuel-system.pump'],
    },
    base,
    () => withoutLosses(possible(solution).network),
  );
  w.figure(
    {
      id: 'pump-margin',
      symbol: 'margin',
      name: 'pump flow to spare, after reserve',
      dimension: 'ratio',
      formula: 'Q_p / Q_req - 1',
      source: 'definition',
      home: PUMP,
    },
    [delivery, required],
    (gives, needs) => gives / needs - 1,
  );
  w.figure(
    {
      id: 'required-pressure',
      symbol: 'p_req',
      name: 'pressure the pump must have at the required delivery',
      dimension: 'pressure',
      formula: 'p_set + reference + losses of feed line and filter at Q_req + rho g rise',
      source: NETWORK_SOURCE,
      home: PUMP,
    },
    [required, ...base],
    (flow) => pressureAt(possible(solution).network, flow),
  );
  w.figure(
    {
      id: 'power-fed',
      symbol: 'P_pump',
      name: 'most power the pump feeds with the reserve kept',
      dimension: 'power',
      formula: 'Q_p / (1 + reserve) * rho_hot / (m_f / P)',
      source: 'mass balance; fuel in proportion to power',
      home: PUMP,
    },
    [delivery, w.limit('pump-reserve'), fuel.hotDensity, demand.pump, w.given('stage.power', 'P')],
    (gives, reserve, density, mass, power) => powerSupported((gives / (1 + reserve)) * density, mass / power),
  );
  nodeFigures(w, base, solution);
  returnFigures(w, base, solution);
  const isDeadHead = solved && !solved.network.return;
  const flow = isDeadHead ? consumption : delivery;
  velocityFigures(w, flow);
  return { delivery: flow };
}

function networkInputs(w: Worksheet, air: AirTerms, fuel: FuelTerms, electrical: ElectricalTerms, consumption: Maybe) {
  const fields = w.stage.values['fuel-system'];
  const points = fields?.pump?.['flow-at']?.length;
  const curve: Maybe = points
    ? w.choice('fuel-system.pump.flow-at', 'curve', `${points} points`)
    : { needs: ['fuel-system.pump.flow-at'] };
  const setting = w.given('fuel-system.regulator.pressure', 'p_set');
  const reference = fields?.regulator?.reference ?? 'atmosphere';
  const boost =
    reference === 'manifold' ? air.boost : w.choice('fuel-system.regulator.reference', 'reference', reference);
  const described = [
    ['fuel-system.feed.inside-diameter', 'd_feed'],
    ['fuel-system.feed.length', 'l_feed'],
    ['fuel-system.return.inside-diameter', 'd_return'],
    ['fuel-system.return.length', 'l_return'],
    ['fuel-system.filter.loss', 'dp_filter'],
    ['fuel-system.pump.quantity', 'n_p'],
  ] as const;
  const lines = described.map(([path, symbol]) => w.given(path, symbol)).filter(isKnown);
  const terms: Maybe[] = [
    consumption,
    curve,
    setting,
    electrical.pumpVoltage,
    fuel.hotDensity,
    fuel.viscosity,
    boost,
    ...lines,
  ];
  return {
    terms,
    consumption,
    setting,
    boost,
    voltage: electrical.pumpVoltage,
    density: fuel.hotDensity,
    viscosity: fuel.viscosity,
    idle: idleManifoldPressure(w),
    ambient: air.ambient,
    isReferenced: reference === 'manifold',
  };
}

/** The operating points, or the sentence that says why there are none. */
function solve(w: Worksheet, inputs: ReturnType<typeof networkInputs>): Solution | undefined {
  const fields = w.stage.values['fuel-system'];
  const [consumption, setting, boost, voltage, density, viscosity, idle, ambient] = [
    inputs.consumption,
    inputs.setting,
    inputs.boost,
    inputs.voltage,
    inputs.density,
    inputs.viscosity,
    inputs.idle,
    inputs.ambient,
  ].map(numberOf);
  if (!fields || consumption === undefined || setting === undefined || voltage === undefined) return undefined;
  if (density === undefined || viscosity === undefined || boost === undefined) return undefined;
  try {
    const pump = pumpOf(fields.pump, (quantity) => w.read(quantity));
    if (!pump) return undefined;
    const at = { pump, voltage, setting, density, viscosity };
    const network = networkOf(fields, { ...at, reference: inputs.isReferenced ? boost : 0 }, (quantity) =>
      w.read(quantity),
    );
    const unreferenced = { ...network, regulator: { ...network.regulator, reference: 0 } };
    const idleReference = inputs.isReferenced && idle !== undefined && ambient !== undefined ? idle - ambient : 0;
    const idling = { ...network, regulator: { ...network.regulator, reference: idleReference } };
    const hungriest = solveNetwork(network, consumption);
    return {
      network,
      hungriest,
      atSetting: atSetting(network, hungriest),
      idle: solveNetwork(idling, consumption * IDLE_SHARE, false),
      standing: solveNetwork(unreferenced, 0),
    };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { impossible: error.message };
  }
}

/** The regulator's setting held by a bypass, whatever the engine takes. */
function atSetting(network: FuelNetwork, hungriest: OperatingPoint): OperatingPoint {
  const isHeld = hungriest.regulation === 'holds' || hungriest.regulation === 'backed-up';
  return isHeld && network.return ? hungriest : solveNetwork({ ...network, return: [] }, 0);
}

/** Pressure the pump must have to give a flow at the regulator's setting. */
function pressureAt({ regulator, feed, filter, liquid }: FuelNetwork, flow: number): number {
  return requiredPressure({
    setting: regulator.setting,
    reference: regulator.reference,
    feedLoss: feed.reduce((sum, line) => sum + lineLoss(line, liquid, flow).friction, 0),
    filterLoss: filter ? filterLoss(filter, flow) : 0,
    rise: feed.reduce((sum, line) => sum + (line.rise ?? 0), 0),
    density: liquid.density,
  });
}

function withoutLosses(network: FuelNetwork): number {
  const bare = { ...network, suction: [], preFilter: undefined, feed: [], filter: undefined, return: [] };
  return solveNetwork(bare, 0).delivered;
}

/** Fuel at idle as a share of that at full power, for the pressures at idle. Common practice, from memory: 2 to 5 %. */
const IDLE_SHARE = 0.03;

function possible(solution: Solution | undefined): Solved {
  if (!solution) throw new RangeError('The fuel system is not described far enough to be solved.');
  if ('impossible' in solution) throw new RangeError(solution.impossible);
  return solution;
}

function solvedOf(solution: Solution | undefined): Solved | undefined {
  return solution && !('impossible' in solution) ? solution : undefined;
}

function deliveryNotes({ hungriest: { regulation }, atSetting: { extrapolated, estimated } }: Solved): string[] {
  return [
    ...(estimated ? ['flow scaled with voltage from the rated curve: an estimate, common practice'] : []),
    ...(extrapolated ? ['read outside the points of the pump curve'] : []),
    ...(regulation === 'sags' ? ['the pump cannot hold the regulator at its setting: the pressure sags'] : []),
    ...(regulation === 'starved' ? ['the pump cannot give the flow the engine asks for'] : []),
    ...(regulation === 'backed-up' ? ['the return line backs up and lifts the pressure over the setting'] : []),
  ];
}

function nodeFigures(w: Worksheet, inputs: Maybe[], solution: Solution | undefined): void {
  const nodes = [
    {
      id: 'pump-pressure',
      symbol: 'p_pump',
      name: 'pressure the pump must add at full demand',
      read: (s: Solved) => s.atSetting.pumpRise,
      home: PUMP,
    },
    {
      id: 'pump-inlet-pressure',
      symbol: 'p_in',
      name: 'pressure at the pump inlet at full demand',
      read: (s: Solved) => s.hungriest.pressures.pumpInlet,
      home: LINES,
    },
    {
      id: 'pump-outlet-pressure',
      symbol: 'p_out',
      name: 'pressure at the pump outlet at full demand',
      read: (s: Solved) => s.hungriest.pressures.pumpOutlet,
      home: LINES,
    },
    {
      id: 'filter-inlet-pressure',
      symbol: 'p_filter',
      name: 'pressure ahead of the fine filter at full demand',
      read: (s: Solved) => s.hungriest.pressures.filterInlet,
      home: LINES,
    },
    {
      id: 'rail-pressure',
      symbol: 'p_rail',
      name: 'pressure that reaches the injectors at full demand',
      read: (s: Solved) => s.hungriest.pressures.rail,
      home: [...LINES, 'fuel-system.regulator', 'throttle-body.injectors'],
    },
    {
      id: 'idle-rail-pressure',
      symbol: 'p_rail,i',
      name: 'pressure at the injectors at idle',
      read: (s: Solved) => s.idle.pressures.rail,
      home: [...LINES, 'fuel-system.regulator'],
    },
    {
      id: 'highest-pressure',
      symbol: 'p_high',
      name: 'highest pressure in the feed line',
      read: (s: Solved) =>
        Math.max(s.hungriest.pressures.pumpOutlet, s.idle.pressures.pumpOutlet, s.standing.pressures.pumpOutlet),
      home: [...LINES, 'fuel-system.pump.relief-pressure'],
    },
  ];
  for (const { read, ...rest } of nodes) {
    w.figure(
      { ...rest, dimension: 'pressure', formula: 'operating point of the fuel system', source: NETWORK_SOURCE },
      inputs,
      () => read(possible(solution)),
    );
  }
}

function returnFigures(w: Worksheet, inputs: Maybe[], solution: Solution | undefined): void {
  const solved = solvedOf(solution);
  const isReturning = solved?.network.return !== undefined && solved.network.return.length > 0;
  if (solved && !isReturning) return;
  w.figure(
    {
      id: 'return-flow',
      symbol: 'Q_r',
      name: 'flow that returns to the tank at idle',
      dimension: 'volume-flow',
      formula: 'delivery at idle - consumption at idle',
      source: 'continuity',
      home: LINES,
    },
    inputs,
    () => possible(solution).idle.returned,
  );
  const back = w.figure(
    {
      id: 'return-back-pressure',
      symbol: 'p_back',
      name: 'back-pressure of the return line at full bypass',
      dimension: 'pressure',
      formula: 'Darcy-Weisbach with the whole delivery in the return line',
      source: NETWORK_SOURCE,
      home: LINES,
      notes: ['all pumps running, the engine standing: the worst case'],
    },
    [
      ...inputs,
      w.given('fuel-system.return.inside-diameter', 'd_return'),
      w.given('fuel-system.return.length', 'l_return'),
    ],
    () => Math.max(0, possible(solution).standing.pressures.regulatorOutlet ?? 0),
  );
  w.figure(
    {
      id: 'return-back-pressure-share',
      symbol: 's_back',
      name: 'back-pressure as a share of the set pressure',
      dimension: 'ratio',
      formula: 'p_back / p_set',
      source: 'definition',
      home: LINES,
    },
    [back, w.given('fuel-system.regulator.pressure', 'p_set')],
    (pressure, setting) => pressure / setting,
  );
}

function velocityFigures(w: Worksheet, delivery: Maybe): void {
  for (const [line, symbol] of [
    ['feed', 'v_feed'],
    ['return', 'v_return'],
    ['suction', 'v_suction'],
  ] as const) {
    if (line === 'suction' && w.stage.values['fuel-system']?.pump?.placement !== 'external') continue;
    w.figure(
      {
        id: `${line}-velocity`,
        symbol,
        name: `fuel velocity in the ${line} line`,
        dimension: 'velocity',
        formula: 'Q_p / (pi d^2 / 4)',
        source: 'continuity',
        home: [`fuel-system.${line}`],
      },
      [delivery, w.given(`fuel-system.${line}.inside-diameter`, 'd')],
      velocity,
    );
  }
}
