import * as boost from '../../server/src/engineering/boost.ts';
import { type Check, fromFirstSet, ownCheck } from './check.ts';
import { PSI } from './units.ts';
import gas from './values/gas.json' with { type: 'json' };
import liquids from './values/liquids.json' with { type: 'json' };
import { worst } from './worst.ts';

const topic = 'boost';
const first = (id: string, got: () => number) => fromFirstSet(id, 10, topic, got);
const outlet = boost.compressorOutletTemperature;
const own = ownCheck(10, topic);

const moran =
  'Moran and Shapiro, Fundamentals of Engineering Thermodynamics, example 9.1, cold air-standard column, from memory';

export const checks: Check[] = [
  first('B01', () => outlet(298.15, 1.5, 0.7)),
  first('B02', () => outlet(298.15, 2, 0.65)),
  first('B02d', () => boost.densityRatio(2, 298.15, outlet(298.15, 2, 0.65))),
  first('B03', () => outlet(313.15, 1.8, 0.6)),
  first('B03d', () => boost.densityRatio(1.8, 313.15, outlet(313.15, 1.8, 0.6))),
  first('B04', () => boost.intercoolerOutletTemperature(outlet(298.15, 1.8, 0.7), 298.15, 0.7)),
  first('B09', () => boost.pressureRatio(8 * PSI, 84556)),
  first('B10', () => boost.compressorPower(0.3, 298.15, outlet(298.15, 1.8, 0.7)) / 1e3),
  own(
    'boost-otto-temperature',
    'temperature at the end of compression, 8 to 1 from 540 degR, exponent 1.4',
    () => boost.endOfCompression({ pressure: 101325, temperature: 300 }, 8, 1.4).temperature * 1.8,
    1241,
    'degR',
    { absolute: 1 },
    moran,
  ),
  own(
    'boost-otto-pressure',
    'pressure at the end of compression over pressure before, 8 to 1, exponent 1.4',
    () => boost.endOfCompression({ pressure: 1, temperature: 300 }, 8, 1.4).pressure,
    18.38,
    '-',
    { relative: 1e-3 },
    'air-standard Otto cycle, 8^1.4 = 18.38; Moran and Shapiro, section 9.2',
  ),
  own(
    'boost-effective-compression',
    'effective compression ratio of 8.5 to 1 with 10 psi at sea level, trade convention',
    () => boost.effectiveCompressionRatio(8.5, 24.696 * PSI),
    14.28,
    '-',
    { absolute: 0.01 },
    'common practice: 8.5 * (10 / 14.696 + 1), worked by hand',
  ),
  own(
    'boost-sensor',
    'highest absolute manifold pressure with 14.7 psi of boost at sea level',
    () => boost.highestManifoldPressure(14.7 * PSI, 101325) / 1e5,
    2.0268,
    'bar',
    { relative: 1e-4 },
    'pressure balance, worked by hand',
  ),
  own(
    'boost-power',
    'power of 300 hp at density ratio 1.4 less 45 hp to drive the blower',
    () => boost.boostedPower(300, 1.4, 45),
    375,
    'hp',
    { relative: 1e-12 },
    'worked by hand: 300 * 1.4 - 45',
  ),
  own(
    'boost-compressor-grid',
    'Largest relative difference over a grid: compressor outlet temperature',
    () => worst(gas.compressors.rows, 3, outlet),
    0,
    '-',
    { absolute: 1e-8 },
    `${gas['made with']}: ${gas.compressors.call}`,
  ),
  own(
    'boost-real-air-temperature-grid',
    'Largest relative difference over a grid: compressor outlet temperature, heat ratio held at 1.4, against real air',
    () => worst(liquids.compression.rows, 3, outlet),
    0,
    '-',
    { absolute: 5e-3 },
    `${liquids['made with']}: equation of state of air (Lemmon et al. 2000)`,
  ),
  own(
    'boost-real-air-power-grid',
    'Largest relative difference over a grid: compressor power for 1 kg/s against the enthalpy rise of real air',
    () =>
      worst(liquids.compression.rows, 4, (inlet, ratio, efficiency) =>
        boost.compressorPower(1, inlet, outlet(inlet, ratio, efficiency)),
      ),
    0,
    '-',
    { absolute: 5e-3 },
    `${liquids['made with']}: equation of state of air (Lemmon et al. 2000)`,
  ),
];
