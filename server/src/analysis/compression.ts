import { effectiveCompressionRatio, endOfCompression } from '../engineering/boost.ts';
import { intakePressure, intakeTemperature } from './boost.ts';
import { compressionRatio } from './engine.ts';
import { figure } from './node.ts';

const HOME = ['engine.compression-ratio', 'stages'] as const;

export const effectiveCompression = figure({
  id: 'effective-compression',
  symbol: 'CR_eff',
  name: 'effective compression ratio',
  dimension: 'ratio-number',
  formula: 'CR * max(1, p_m / 101.325 kPa)',
  source: 'common practice; it counts pressure and forgets heat',
  home: HOME,
  notes: ['a caution, not a knock limit'],
  from: { compressionRatio, intakePressure },
  compute: ({ compressionRatio, intakePressure }) => effectiveCompressionRatio(compressionRatio, intakePressure),
});

export const compressionEndPressure = figure({
  id: 'compression-end-pressure',
  symbol: 'p_c',
  name: 'pressure at the end of compression, without combustion',
  dimension: 'absolute-pressure',
  formula: 'p_m * CR^1.3',
  source: 'polytropic compression, exponent 1.3: Heywood (1988), section 9.2.2',
  home: HOME,
  from: { intakePressure, compressionRatio },
  compute: ({ intakePressure, compressionRatio }) => endOf(intakePressure, 300, compressionRatio).pressure,
});

export const compressionEndTemperature = figure({
  id: 'compression-end-temperature',
  symbol: 'T_c',
  name: 'temperature at the end of compression, without combustion',
  dimension: 'temperature',
  formula: 'T_m * CR^0.3',
  source: 'polytropic compression, exponent 1.3: Heywood (1988), section 9.2.2',
  home: HOME,
  from: { intakeTemperature, compressionRatio },
  compute: ({ intakeTemperature, compressionRatio }) => endOf(101325, intakeTemperature, compressionRatio).temperature,
});

/** Pressure and temperature at the end of compression; neither depends on the other. */
function endOf(pressure: number, temperature: number, ratio: number) {
  return endOfCompression({ pressure, temperature }, ratio);
}
