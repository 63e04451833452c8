import { finite, notNegative, positive, within } from './bounds.ts';

/** Resistivity of annealed copper at 20 degC, ohm m, and its rise per K. Source: IEC 60028 (1925). */
export const copper = { resistivity: 1 / 58e6, perKelvin: 0.00393, referenceTemperature: 293.15 } as const;

/**
 * Resistance of a stranded conductor over a solid one of the same copper area: the strands are longer than the wire.
 * Source: NFPA 70 (2017) ch. 9 table 8, stranded against solid.
 */
export const strandLay = 1.02;

/** Fuse ratings, A, in rising order. Source: ISO 8820-3 blade fuse-links, types C, E and F (sizes from memory). */
export const bladeFuses: readonly number[] = [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100];

/** Share of its rating that a fuse should carry continuously. */
export const fuseLoading = {
  value: 0.8,
  source: 'common practice: 125 % rule; no clause of ISO 8820 could be read',
} as const;

/** Voltage lost in the connectors, relay and fuse of a pump circuit, V, where nothing better is known. */
export const connectorAllowance = { value: 0.1, source: 'common practice, no source' } as const;

/** Share of the supply voltage that a pump circuit may lose. */
export const dropLimit = { value: 0.03, source: 'common practice: 3 %' } as const;

/** Current, A, of a starter while it turns a warm engine, where nothing better is known. */
export const crankingCurrent = {
  value: 200,
  source: 'common practice, from memory: 150 to 250 A for a passenger-car V8',
} as const;

/** Wire gauges that shops stock; 0, -1, -2 and -3 stand for 1/0, 2/0, 3/0 and 4/0. */
export const stockedGauges: readonly number[] = [22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3];

/**
 * Largest fuse, A, that protects a copper wire of an AWG size. Deliberately on the safe side: free-air tables for
 * high-temperature automotive wire allow two to three times as much for single wires.
 * Source: 18 to 10 AWG: NFPA 70 (NEC) 240.4(D); 8 AWG and thicker: NFPA 70 table 310.16, 60 degC column, from memory;
 * 22 and 20 AWG: common practice, from memory.
 */
export const fuseLimitByGauge: ReadonlyMap<number, number> = new Map([
  [22, 3],
  [20, 5],
  [18, 7],
  [16, 10],
  [14, 15],
  [12, 20],
  [10, 30],
  [8, 40],
  [6, 55],
  [4, 70],
  [2, 95],
  [1, 110],
  [0, 125],
  [-1, 145],
  [-2, 165],
  [-3, 195],
]);

/**
 * Largest resistance of flexible plain copper conductors at 20 degC, ohm/m, by nominal area in mm2: the nominal area of
 * metric cable is not its copper area. Source: IEC 60228 (2004) table 3, class 5, read in a secondary copy.
 */
const flexibleResistance: readonly (readonly [number, number])[] = [
  [0.5, 0.039],
  [0.75, 0.026],
  [1, 0.0195],
  [1.5, 0.0133],
  [2.5, 0.00798],
  [4, 0.00495],
  [6, 0.0033],
  [10, 0.00191],
  [16, 0.00121],
  [25, 0.00078],
  [35, 0.000554],
  [50, 0.000386],
  [70, 0.000272],
  [95, 0.000206],
];

/** Nominal areas, m2, of metric wire that shops stock, in rising order. Source: IEC 60228 class 5, common sizes. */
export const stockedAreas: readonly number[] = flexibleResistance.map(([square]) => square * 1e-6);

/** A two-wire circuit: resistance per meter at its temperature, one-way length of supply and return, m, and what the connectors take, V. */
export type Circuit = {
  readonly resistancePerMeter: number;
  readonly length: number;
  /** Length of the way back, m; 0 when the body is the return and its drop is in the connector allowance. */
  readonly returnLength: number;
  readonly connectors: number;
};

/**
 * Diameter, m, of a solid wire of an AWG number; 0, -1, -2, -3 stand for 1/0 to 4/0. Source: ASTM B258: 0.005 in for 36,
 * 0.46 in for 4/0, 39 equal ratios between. @throws RangeError unless from -3 to 40
 */
export function awgDiameter(gauge: number): number {
  return 0.000127 * 92 ** ((36 - within(gauge, -3, 40, 'The wire gauge (AWG)')) / 39);
}

/** Copper area, m2, of an AWG number. Source: ASTM B258. @throws RangeError unless from -3 to 40 */
export function awgArea(gauge: number): number {
  return (Math.PI / 4) * awgDiameter(gauge) ** 2;
}

/** AWG number, not rounded, of a copper area in m2. Source: ASTM B258 solved for the number. @throws RangeError */
export function awgNumber(area: number): number {
  const diameter = Math.sqrt((4 * positive(area, "The wire's copper area")) / Math.PI);
  return 36 - (39 * Math.log(diameter / 0.000127)) / Math.log(92);
}

/**
 * Thinnest of the gauges given that has at least the copper area, m2; undefined when none is thick enough. A gauge that
 * meets the area but for rounding counts. @throws RangeError unless the area is above zero
 */
export function thinnestGauge(area: number, gauges: readonly number[] = stockedGauges): number | undefined {
  const number = awgNumber(area) + 1e-9;
  let best: number | undefined;
  for (const gauge of gauges) {
    if (gauge <= number && (best === undefined || gauge > best)) best = gauge;
  }
  return best;
}

/**
 * Resistance of a copper wire per meter, ohm/m, from its copper area, m2, at a temperature, K. `lay` is 1 for solid wire,
 * `strandLay` for stranded. Source: IEC 60028. @throws RangeError unless the area is above zero and 200 to 500 K
 */
export function wireResistance(area: number, temperature: number, lay = 1): number {
  const cold = (copper.resistivity * positive(lay, 'The strand lay')) / positive(area, "The wire's copper area");
  return cold * temperatureFactor(temperature);
}

/**
 * Largest resistance per meter, ohm/m, of a metric flexible wire of a nominal area, m2, at a temperature, K; areas
 * between sizes count as the next smaller size in proportion. Source: IEC 60228 class 5 with IEC 60028.
 * @throws RangeError unless the area is from 0.5 to 95 mm2 and the temperature from 200 to 500 K
 */
export function metricWireResistance(nominalArea: number, temperature: number): number {
  const square = within(nominalArea, 0.4999e-6, 95.001e-6, "The wire's nominal area in m2") * 1e6;
  let size = flexibleResistance[0] as readonly [number, number];
  for (const entry of flexibleResistance) if (entry[0] <= square * (1 + 1e-9)) size = entry;
  return ((size[1] * size[0]) / square) * temperatureFactor(temperature);
}

/**
 * Resistance of flexible copper wire per meter, ohm/m, at a temperature, K: by its copper area, m2, where the size is a
 * gauge, by its nominal area, m2, where it is metric. Source: see `wireResistance` with `strandLay` and
 * `metricWireResistance`. @throws RangeError as they do
 */
export function flexibleWireResistance(area: number, size: 'gauge' | 'metric', temperature: number): number {
  return size === 'metric' ? metricWireResistance(area, temperature) : wireResistance(area, temperature, strandLay);
}

/**
 * Voltage, V, lost in a circuit at a current, A: I r (there + back) + connectors. Source: Ohm's law. @throws RangeError
 */
export function voltageDrop(circuit: Circuit, current: number): number {
  const way = notNegative(circuit.length, 'The wire length') + notNegative(circuit.returnLength, 'The return length');
  const resistance = positive(circuit.resistancePerMeter, "The wire's resistance") * way;
  return notNegative(current, 'The current') * resistance + notNegative(circuit.connectors, 'The connector allowance');
}

/** Voltage, V, left for the load of a circuit, never below 0, from the supply's voltage and the current, A. @throws RangeError */
export function voltageAtLoad(circuit: Circuit, supply: number, current: number): number {
  return Math.max(0, positive(supply, 'The supply voltage') - voltageDrop(circuit, current));
}

/**
 * Smallest copper area, m2, that keeps the drop of a circuit within a share of the supply voltage at a current, A.
 * Source: Ohm's law with IEC 60028. @throws RangeError for a quantity out of its range, or when the connectors alone
 * take as much as the limit
 */
export function smallestArea(need: {
  current: number;
  supply: number;
  limit: number;
  length: number;
  returnLength: number;
  connectors: number;
  temperature: number;
  lay: number;
}): number {
  const allowed = positive(need.limit, 'The limit of the voltage drop') * positive(need.supply, 'The supply voltage');
  const left = allowed - notNegative(need.connectors, 'The connector allowance');
  if (left <= 0) {
    throw new RangeError(
      `The connectors alone take ${need.connectors} V of the ${allowed} V allowed: no wire is thick enough.`,
    );
  }
  const way = positive(need.length, 'The wire length') + notNegative(need.returnLength, 'The return length');
  return (positive(need.current, 'The current') * way * wireResistance(1, need.temperature, need.lay)) / left;
}

/**
 * Largest fuse, A, that protects a wire of a copper area, m2: that of the next thinner gauge in `fuseLimitByGauge`;
 * 0 when the wire is thinner than all of them. @throws RangeError unless the area is above zero
 */
export function fuseLimit(area: number): number {
  const number = awgNumber(area) - 1e-9;
  let limit = 0;
  for (const [gauge, fuse] of fuseLimitByGauge) if (gauge >= number) limit = Math.max(limit, fuse);
  return limit;
}

/**
 * Smallest fuse rating, A, whose share `loading` carries a continuous current, A; undefined when none is large enough.
 * A rating met but for rounding counts: 12 A / 0.8 takes 15 A. Source: common practice, see `fuseLoading`; ratings ISO
 * 8820-3. @throws RangeError unless the current is above zero and the loading above 0 up to 1
 */
export function fuseRating(
  current: number,
  loading: number = fuseLoading.value,
  ratings: readonly number[] = bladeFuses,
): number | undefined {
  within(positive(loading, 'The loading of a fuse'), 0, 1, 'The loading of a fuse');
  const needed = positive(current, 'The continuous current') / loading;
  return ratings.find((rating) => rating >= needed * (1 - 1e-9));
}

/** Loads of a charging system, A, against what it gives. */
export type ChargingBalance = { readonly load: number; readonly reserve: number; readonly loading: number };

/**
 * Sum of the loads, A, what is left of the alternator's output, A (negative when the battery is drained), and the share
 * of the output in use. Source: current balance. @throws RangeError for a negative load or an output not above zero
 */
export function chargingBalance(output: number, loads: readonly number[]): ChargingBalance {
  positive(output, "The alternator's output");
  let load = 0;
  for (const one of loads) load += notNegative(one, 'The load');
  return { load, reserve: output - load, loading: load / output };
}

function temperatureFactor(temperature: number): number {
  within(finite(temperature, 'The wire temperature in K'), 200, 500, 'The wire temperature in K');
  return 1 + copper.perKelvin * (temperature - copper.referenceTemperature);
}
