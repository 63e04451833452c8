import { ampacity, fuseLimit } from '../../server/src/engineering/fuses.ts';
import {
  awgArea,
  awgNumber,
  metricWireResistance,
  thinnestWire,
  vehicleGaugeArea,
} from '../../server/src/engineering/wire.ts';
import { crankingVoltages, largestResistance, voltageDrop } from '../../server/src/engineering/wiring.ts';
import { type Check, ownCheck } from './check.ts';
import { CELSIUS } from './units.ts';

const wire = 'vehicle wire';
const own = ownCheck(18, wire);
const foot = 0.3048;
const mil = 2.54e-5;

/** Nominal area, mm2, of strands of a diameter in thousandths of an inch. */
const strands = (count: number, thousandths: number) => count * (Math.PI / 4) * (thousandths * mil * 1e3) ** 2;

const construction = (gauge: number, name: string, count: number, thousandths: number) =>
  own(
    `wire-strands-${gauge}`,
    `copper in vehicle wire of ${gauge} gauge, least, against its strands ${name}, nominal`,
    () => vehicleGaugeArea(gauge) * 1e6,
    strands(count, thousandths),
    'mm2',
    0.05,
    'strands of SAE J1128 type GXL wire, read in a data sheet; strand diameters ASTM B258',
  );

const equivalent = (gauge: number, square: number) =>
  own(
    `wire-metric-${gauge}`,
    `copper in vehicle wire of ${gauge} gauge against its rounded metric size`,
    () => vehicleGaugeArea(gauge) * 1e6,
    square,
    'mm2',
    0.08,
    'metric sizes of SAE gauges as in service manuals, read (koczarski.com wire gauge tables)',
  );

/** Nominal area, largest resistance of class 2 and class 5 at 20 degC, mohm/m. */
const classes = [
  [0.5, 36, 39],
  [0.75, 24.5, 26],
  [1, 18.1, 19.5],
  [1.5, 12.1, 13.3],
  [2.5, 7.41, 7.98],
  [4, 4.61, 4.95],
  [6, 3.08, 3.3],
  [10, 1.83, 1.91],
  [16, 1.15, 1.21],
  [25, 0.727, 0.78],
  [35, 0.524, 0.554],
  [50, 0.387, 0.386],
  [70, 0.268, 0.272],
  [95, 0.193, 0.206],
  [120, 0.153, 0.161],
] as const;

const carries = (gauge: number, ampere: number) =>
  own(
    `wire-ampacity-${gauge}`,
    `current that ${gauge} gauge of 105 degC carries in an engine space`,
    () => ampacity(awgArea(gauge), 'gauge'),
    ampere,
    'A',
    1e-6,
    'low-voltage table for boats, ABYC E-11, read in a secondary copy (sportsmensmarine.com)',
  );

const practice = (gauge: number, ampere: number) =>
  own(
    `wire-fuse-${gauge}`,
    `largest fuse for ${gauge} gauge`,
    () => fuseLimit(awgArea(gauge), 'gauge'),
    ampere,
    'A',
    0,
    'common practice of vehicle harnesses, from memory',
  );

const metricPractice = (square: number, ampere: number) =>
  own(
    `wire-fuse-metric-${square}`,
    `largest fuse for ${square} mm2`,
    () => fuseLimit(square * 1e-6, 'metric'),
    ampere,
    'A',
    { absolute: 5 },
    'common practice of vehicle harnesses, from memory; makers differ by a size',
  );

export const checks: Check[] = [
  construction(18, '16/30', 16, 10),
  construction(16, '19/29', 19, 11.3),
  construction(14, '19/27', 19, 14.2),
  construction(12, '19/25', 19, 17.9),
  construction(10, '19/23', 19, 22.6),
  construction(8, '19/0.0285 in', 19, 28.5),
  equivalent(18, 0.8),
  equivalent(14, 2),
  equivalent(12, 3),
  equivalent(10, 5),
  equivalent(8, 8),
  equivalent(6, 13),
  equivalent(4, 19),
  equivalent(2, 32),
  equivalent(0, 52),
  own(
    'wire-metric-classes',
    'Largest relative difference of metric vehicle wire, 0.5 to 120 mm2, from the middle of IEC 60228 classes 2 and 5',
    () =>
      Math.max(
        ...classes.map(([square, stranded, flexible]) =>
          Math.abs((metricWireResistance(square * 1e-6, 20 + CELSIUS) * 2e3) / (stranded + flexible) - 1),
        ),
      ),
    0,
    '-',
    { absolute: 0.05 },
    'IEC 60228 tables 2 and 3, read in secondary copies (mycableengineering.com, etechnik-synergie.com)',
  ),
  own(
    'wire-metric-thin',
    'resistance of 0.22 mm2 at 20 degC against 7 strands of 0.20 mm',
    () => metricWireResistance(0.22e-6, 20 + CELSIUS) * 1e3,
    83.5,
    'mohm/m',
    0.03,
    'data sheet of automotive wire 7/0.20 mm, 83.5 ohm/km, read in a secondary copy',
  ),
  own(
    'wire-worked-example',
    'thinnest vehicle wire for 10 A over 21 ft there and back at 3 % of 12 V: 12 gauge has enough copper by the building gauge, not by the vehicle gauge',
    () => {
      const largest = largestResistance({ current: 10, drop: 0.36, length: 11 * foot, returnLength: 10 * foot });
      return Math.round(awgNumber(thinnestWire(largest, 'gauge', 25 + CELSIUS) ?? Number.NaN));
    },
    10,
    'AWG',
    0,
    'worked example for a bilge pump, 6271 circular mils needed (sportsmensmarine.com), read',
  ),
  own(
    'wire-drop',
    'drop of 10 A in 21 ft of 12 gauge vehicle wire by the trade formula with 10.75 ohm circular mils a foot',
    () =>
      voltageDrop(
        {
          resistancePerMeter: 1 / 58e6 / vehicleGaugeArea(12),
          length: 21 * foot,
          returnLength: 0,
          connectors: 0,
        },
        10,
      ),
    (10.75 * 10 * 21) / 5833,
    'V',
    0.04,
    'formula of the same page; its 10.75 is copper at some 30 degC, ours at 20 degC is 10.37',
  ),
  carries(18, 17),
  carries(16, 21),
  carries(14, 30),
  carries(12, 38),
  carries(10, 51),
  practice(18, 10),
  practice(16, 15),
  practice(14, 20),
  practice(12, 30),
  practice(10, 40),
  metricPractice(0.5, 7.5),
  metricPractice(1, 15),
  metricPractice(1.5, 20),
  metricPractice(2.5, 30),
  metricPractice(4, 40),
  own(
    'wire-cranking',
    'voltage of a computer grounded on the engine: 10 V battery, 200 A through a ground path of 2.5 mohm',
    () => crankingVoltages({ battery: 10, current: 200, cable: 1e-3, groundPath: 2.5e-3 }).groundedAtEngine,
    9.5,
    'V',
    1e-12,
    "Ohm's law, worked by hand",
  ),
];
