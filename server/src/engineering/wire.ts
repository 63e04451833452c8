import { finite, positive, within } from './bounds.ts';
import { CIRCULAR_MIL } from './constants.ts';
import { linearAt } from './interpolation.ts';

/** How a wire's size is given: by its gauge number, or by its nominal metric area. */
export type WireKind = 'gauge' | 'metric';

/** Resistivity of annealed copper at 20 degC, ohm m, and its rise per K. Source: IEC 60028 (1925). */
export const copper = { resistivity: 1 / 58e6, perKelvin: 0.00393, referenceTemperature: 293.15 } as const;

/**
 * Resistance of a stranded conductor over a solid one of the same copper area: the strands are longer than the wire.
 * Source: NFPA 70 (2017) ch. 9 table 8, stranded against solid.
 */
export const strandLay = 1.02;

/** Wire gauges that shops stock; 0, -1, -2 and -3 stand for 1/0, 2/0, 3/0 and 4/0. */
export const stockedGauges: readonly number[] = [22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3];

/**
 * Least copper of vehicle wire by gauge, circular mils. Source: SAE J1128 (18 to 8) and SAE J1127 (6 to 4/0), read in
 * secondary copies; 1 and 3/0 from memory. They hold less than the gauge's own area in ASTM B258, which the building
 * trade's wire has.
 */
const vehicleCircularMils: readonly (readonly [number, number])[] = [
  [-3, 205500],
  [-2, 158600],
  [-1, 125100],
  [0, 98980],
  [1, 77790],
  [2, 62450],
  [4, 37360],
  [6, 24538],
  [8, 14810],
  [10, 9343],
  [12, 5833],
  [14, 3702],
  [16, 2336],
  [18, 1537],
];

const thinnestVehicleGauge = 18;
const vehicleGauges = vehicleCircularMils.map(([gauge]) => gauge);
const vehicleLogAreas = vehicleCircularMils.map(([, mils]) => Math.log(mils * CIRCULAR_MIL));

/**
 * Largest resistance of metric vehicle wire at 20 degC, ohm/m, by nominal area in mm2: the nominal area is not the copper
 * area. Source: 0.13 to 120 mm2 ISO 6722-1 (2011), bare copper, from memory, checked against the neighboring classes of
 * IEC 60228; thicker: IEC 60228 (2004) table 3, class 5, read in secondary copies.
 */
const metricResistance: readonly (readonly [number, number])[] = [
  [0.13, 0.136],
  [0.22, 0.0848],
  [0.35, 0.0544],
  [0.5, 0.0371],
  [0.75, 0.0247],
  [1, 0.0185],
  [1.5, 0.0127],
  [2, 0.00942],
  [2.5, 0.0076],
  [3, 0.00615],
  [4, 0.00471],
  [5, 0.00394],
  [6, 0.00314],
  [8, 0.00238],
  [10, 0.00182],
  [12, 0.00152],
  [16, 0.00116],
  [20, 0.000955],
  [25, 0.000743],
  [30, 0.000647],
  [35, 0.000527],
  [40, 0.000473],
  [50, 0.000368],
  [60, 0.000315],
  [70, 0.000259],
  [95, 0.000196],
  [120, 0.000153],
  [150, 0.000129],
  [185, 0.000106],
  [240, 0.0000801],
  [300, 0.0000641],
];

const metricLogAreas = metricResistance.map(([square]) => Math.log(square));
const metricLogResistances = metricResistance.map(([, ohm]) => Math.log(ohm));

/** Nominal areas, m2, of metric wire that shops stock, in rising order. Source: common sizes of ISO 6722-1. */
export const stockedAreas: readonly number[] = [
  0.22, 0.35, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120,
].map((square) => square * 1e-6);

/**
 * Diameter, m, of a solid wire of an AWG number; 0, -1, -2, -3 stand for 1/0 to 4/0. Source: ASTM B258: 0.005 in for 36,
 * 0.46 in for 4/0, 39 equal ratios between. @throws RangeError unless from -3 to 40
 */
export function awgDiameter(gauge: number): number {
  return 0.000127 * 92 ** ((36 - within(gauge, -3, 40, 'The wire gauge (AWG)')) / 39);
}

/** Area, m2, of an AWG number, the size by which a gauge is known. Source: ASTM B258. @throws RangeError unless from -3 to 40 */
export function awgArea(gauge: number): number {
  return (Math.PI / 4) * awgDiameter(gauge) ** 2;
}

/** AWG number, not rounded, of an area in m2. Source: ASTM B258 solved for the number. @throws RangeError */
export function awgNumber(area: number): number {
  const diameter = Math.sqrt((4 * positive(area, "The wire's copper area")) / Math.PI);
  return 36 - (39 * Math.log(diameter / 0.000127)) / Math.log(92);
}

/**
 * Least copper, m2, of vehicle wire of an AWG number: SAE J1128 and J1127, sizes between by equal ratios. Thinner than 18
 * the gauge's own area, from which vehicle wire differs by some 5 % (from memory).
 * @throws RangeError unless from -3 to 40
 */
export function vehicleGaugeArea(gauge: number): number {
  within(gauge, -3, 40, 'The wire gauge (AWG)');
  if (gauge > thinnestVehicleGauge) return Math.min(awgArea(gauge), vehicleGaugeArea(thinnestVehicleGauge));
  return Math.exp(linearAt(vehicleGauges, vehicleLogAreas, gauge));
}

/**
 * Copper, m2, in vehicle wire of a size, m2: a gauge is given by its area in ASTM B258 and holds what `vehicleGaugeArea`
 * says, a metric size by its nominal area and counts as that much.
 * Thicker than 4/0 counts as 4/0.
 * @throws RangeError for a gauge thinner than 40 or an area not above zero
 */
export function copperArea(size: number, kind: WireKind): number {
  if (kind === 'metric') return positive(size, "The wire's nominal area");
  return vehicleGaugeArea(Math.max(-3, awgNumber(size)));
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
 * Largest resistance per meter, ohm/m, of metric vehicle wire of a nominal area, m2, at a temperature, K; between
 * sizes by equal ratios, thinner than 0.13 mm2 in proportion. Source: ISO 6722-1 (from memory) with IEC 60028, see
 * `metricResistance`. @throws RangeError unless the area is from 0.05 to 300 mm2 and the temperature from 200 to 500 K
 */
export function metricWireResistance(nominalArea: number, temperature: number): number {
  const square = within(nominalArea * 1e6, 0.0499, 300.1, "The wire's nominal area in mm2");
  const held = Math.min(Math.max(square, 0.13), 300);
  const cold = Math.exp(linearAt(metricLogAreas, metricLogResistances, Math.log(held)));
  return ((cold * held) / square) * temperatureFactor(temperature);
}

/**
 * Resistance of vehicle wire per meter, ohm/m, of a size in m2 (see `copperArea`) at a temperature, K. Source: SAE J1128
 * and J1127 with IEC 60028 and `strandLay` for gauges, `metricWireResistance` for metric sizes. @throws RangeError as they do
 */
export function flexibleWireResistance(size: number, kind: WireKind, temperature: number): number {
  if (kind === 'metric') return metricWireResistance(size, temperature);
  return wireResistance(copperArea(size, 'gauge'), temperature, strandLay);
}

/**
 * Size, m2, of the thinnest stocked wire of a kind whose resistance at a temperature, K, is at most `largest`, ohm/m;
 * undefined when none is thick enough. It goes by the same tables as `flexibleWireResistance`, so that the wire it names
 * keeps the drop it was asked to keep. @throws RangeError unless `largest` is above zero and the temperature 200 to 500 K
 */
export function thinnestWire(largest: number, kind: WireKind, temperature: number): number | undefined {
  const limit = positive(largest, 'The largest resistance of the wire') * (1 + 1e-9);
  const sizes = kind === 'metric' ? stockedAreas : stockedGauges.map(awgArea);
  return sizes.find((size) => flexibleWireResistance(size, kind, temperature) <= limit);
}

function temperatureFactor(temperature: number): number {
  within(finite(temperature, 'The wire temperature in K'), 200, 500, 'The wire temperature in K');
  return 1 + copper.perKelvin * (temperature - copper.referenceTemperature);
}
