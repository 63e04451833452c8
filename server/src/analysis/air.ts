import { engineVolumeFlow, siteAir, standardAir } from '../engineering/air.ts';
import {
  ADIABATIC_EFFICIENCY,
  boostedPower,
  compressorOutletTemperature,
  compressorPower,
  densityRatio,
  effectiveCompressionRatio,
  endOfCompression,
  highestManifoldPressure,
  intercoolerOutletTemperature,
  pressureRatio,
  referencePlace,
} from '../engineering/boost.ts';
import type { Induction } from '../engineering/demand.ts';
import type { InductionPath } from '../engineering/injectors.ts';
import type { Maybe } from './figure.ts';
import { inductionOf } from './induction.ts';
import type { Worksheet } from './worksheet.ts';

const STAGE = ['stages'];
const SITE = ['site'];

export type AirTerms = {
  induction: Induction;
  path: InductionPath;
  boost: Maybe;
  ambient: Maybe;
  hottest: Maybe;
  density: Maybe;
  hotDensity: Maybe;
  chargeDensity: Maybe;
  chargeTemperature: Maybe;
  manifoldPressure: Maybe;
  sensorPressure: Maybe;
};

/** Air at the site and in the manifold, with what boost does to it. */
export function airFigures(w: Worksheet): AirTerms {
  const { induction, path } = inductionOf(w.stage.stage);
  const altitude = w.given('site.altitude', 'H', { value: 0, because: 'sea level' });
  const hottest = w.given('site.hottest', 'T_day', { value: 308.15, because: 'common practice: a 35 degC day' });
  const ambient = w.figure(
    {
      id: 'site-pressure',
      symbol: 'p_a',
      name: 'air pressure at the site',
      dimension: 'absolute-pressure',
      formula: '101.325 kPa * (1 - 0.0065 H / 288.15)^5.25588',
      source: 'ISO 2533:1975',
      home: SITE,
    },
    [altitude],
    (height) => standardAir(height).pressure,
  );
  w.figure(
    {
      id: 'idle-vacuum',
      symbol: 'v_i',
      name: 'vacuum at idle',
      dimension: 'depression',
      formula: 'p_a - p_i',
      source: 'definition of gauge pressure',
      home: ['engine.idle-manifold-pressure', 'vacuum-reference'],
    },
    [ambient, w.given('engine.idle-manifold-pressure', 'p_i')],
    (air, manifold) => air - manifold,
  );
  const density = w.figure(
    {
      id: 'site-density',
      symbol: 'rho_a',
      name: 'air density at the site on a standard day',
      dimension: 'air-density',
      formula: 'p_a / (R T_standard(H))',
      source: 'ISO 2533:1975',
      home: SITE,
    },
    [altitude, ambient],
    (height) => standardAir(height).density,
  );
  const hotDensity = w.figure(
    {
      id: 'hot-day-density',
      symbol: 'rho_hot',
      name: 'air density at the site on the hottest day',
      dimension: 'air-density',
      formula: 'p_a / (R T_day)',
      source: 'ISO 2533:1975 pressure, ideal gas; dry air',
      home: SITE,
    },
    [altitude, hottest, ambient],
    (height, temperature) => siteAir(height, temperature).density,
  );
  const natural = { induction, path, ambient, hottest, density, hotDensity };
  if (induction === 'natural') {
    const boost = w.choice('stage.induction', 'induction', 'natural');
    return {
      ...natural,
      boost: { ...boost, value: 0, dimension: 'pressure' },
      chargeDensity: density,
      chargeTemperature: hottest,
      manifoldPressure: ambient,
      sensorPressure: sensorPressure(w, undefined),
    };
  }
  return { ...natural, ...boostFigures(w, induction, { ambient, density, hottest }) };
}

function boostFigures(
  w: Worksheet,
  induction: 'roots' | 'centrifugal' | 'turbo',
  { ambient, density, hottest }: { ambient: Maybe; density: Maybe; hottest: Maybe },
) {
  const boost = w.given('stage.boost', 'p_b');
  const efficiency = w.given('stage.compressor-efficiency', 'eta', {
    value: ADIABATIC_EFFICIENCY[induction],
    because: 'common practice for this kind of blower',
  });
  const cooling = w.given('stage.intercooler-effectiveness', 'eps', { value: 0, because: 'no intercooler' });
  const ratio = w.figure(
    {
      id: 'pressure-ratio',
      symbol: 'PR',
      name: 'pressure ratio of the blower',
      dimension: 'ratio-number',
      formula: '(p_a + p_b) / p_a',
      source: 'definition; the loss of air cleaner and throttle body is left out',
      home: STAGE,
    },
    [ambient, boost],
    (air, gauge) => pressureRatio(gauge, air),
  );
  const outlet = w.figure(
    {
      id: 'blower-outlet-temperature',
      symbol: 'T_2',
      name: 'temperature behind the blower on the hottest day',
      dimension: 'temperature',
      formula: 'T_1 (1 + (PR^((g-1)/g) - 1) / eta)',
      source: 'Heywood, eq. 6.42',
      home: STAGE,
    },
    [hottest, ratio, efficiency],
    compressorOutletTemperature,
  );
  const chargeTemperature = w.figure(
    {
      id: 'charge-temperature',
      symbol: 'T_m',
      name: 'charge temperature on the hottest day',
      dimension: 'temperature',
      formula: 'T_2 - eps (T_2 - T_day)',
      source: 'definition of heat-exchanger effectiveness',
      home: STAGE,
    },
    [outlet, hottest, cooling],
    intercoolerOutletTemperature,
  );
  const ratioOfDensity = w.figure(
    {
      id: 'density-ratio',
      symbol: 'DR',
      name: 'density ratio of the charge',
      dimension: 'ratio-number',
      formula: 'PR * T_1 / T_m',
      source: 'ideal gas',
      home: STAGE,
    },
    [ratio, hottest, chargeTemperature],
    densityRatio,
  );
  const chargeDensity = w.figure(
    {
      id: 'charge-density',
      symbol: 'rho_m',
      name: 'charge density in the manifold',
      dimension: 'air-density',
      formula: 'rho_a * DR',
      source: 'ideal gas',
      home: STAGE,
    },
    [density, ratioOfDensity],
    (air, times) => air * times,
  );
  const manifoldPressure = w.figure(
    {
      id: 'manifold-pressure',
      symbol: 'p_m',
      name: 'absolute manifold pressure at full boost',
      dimension: 'absolute-pressure',
      formula: 'p_a + p_b',
      source: 'definition of gauge pressure',
      home: STAGE,
    },
    [ambient, boost],
    (air, gauge) => air + gauge,
  );
  powerEstimate(w, ratioOfDensity, { hottest, outlet, chargeDensity });
  return { boost, chargeDensity, chargeTemperature, manifoldPressure, sensorPressure: sensorPressure(w, boost) };
}

/** What the last natural stage's power would become with this stage's charge. */
function powerEstimate(w: Worksheet, ratio: Maybe, air: { hottest: Maybe; outlet: Maybe; chargeDensity: Maybe }) {
  const natural = w.stage.natural;
  if (!natural?.power) return;
  const power = {
    symbol: 'P_nat',
    name: `power of stage ${natural.name ?? 'before the blower'}`,
    value: w.read(natural.power),
    dimension: 'power' as const,
    field: ['stages', natural.index, 'power'],
  };
  const displacement = w.given('engine.displacement', 'V_d');
  const speed = w.given('engine.peak-power-speed', 'N_p');
  const isBelt = w.stage.stage.induction !== 'turbo';
  w.figure(
    {
      id: 'boosted-power',
      symbol: 'P_est',
      name: 'power to expect from the natural figure',
      dimension: 'power',
      formula: isBelt ? 'P_nat * DR - m_air c_p (T_2 - T_1)' : 'P_nat * DR',
      source: 'common practice: power follows charge density; drive power: first law, Heywood eq. 6.43',
      home: STAGE,
      notes: ['an estimate; a turbine takes its power from the exhaust, which is left out'],
    },
    [power, ratio, air.hottest, air.outlet, air.chargeDensity, displacement, speed],
    (before, times, cold, hot, density, swept, turns) => {
      const airFlow = engineVolumeFlow(swept, turns, 0.85) * density;
      return boostedPower(before, times, isBelt ? compressorPower(airFlow, cold, hot) : 0);
    },
  );
}

function sensorPressure(w: Worksheet, boost: Maybe | undefined): Maybe {
  const { induction, path } = inductionOf(w.stage.stage);
  const seaLevel = {
    symbol: 'p_0',
    name: 'sea-level pressure',
    value: 101325,
    dimension: 'absolute-pressure' as const,
    assumed: 'the vehicle may go down to sea level',
  };
  const none = { symbol: 'p_b', name: 'boost', value: 0, dimension: 'pressure' as const, assumed: 'natural induction' };
  return w.figure(
    {
      id: 'sensor-pressure',
      symbol: 'p_max',
      name: 'highest absolute pressure the sensor must read',
      dimension: 'absolute-pressure',
      formula: 'p_0 + p_b',
      source: 'ISO 2533:1975 sea-level pressure; definition of gauge pressure',
      home: ['sensors.manifold-pressure', 'stages'],
      notes: [`take the reference from ${referencePlace(induction, path)}`],
    },
    [seaLevel, boost ?? none],
    (sea, gauge) => highestManifoldPressure(gauge, sea),
  );
}

/** Compression figures behind a knock caution. */
export function compressionFigures(w: Worksheet, air: AirTerms): void {
  const compression = w.given('engine.compression-ratio', 'CR');
  const home = ['engine.compression-ratio', 'stages'];
  w.figure(
    {
      id: 'effective-compression',
      symbol: 'CR_eff',
      name: 'effective compression ratio',
      dimension: 'ratio-number',
      formula: 'CR * p_m / p_0',
      source: 'common practice; it counts pressure and forgets heat',
      home,
      notes: ['a caution, not a knock limit'],
    },
    [compression, air.manifoldPressure],
    (ratio, pressure) => effectiveCompressionRatio(ratio, Math.max(1, pressure / 101325)),
  );
  w.figure(
    {
      id: 'compression-end-pressure',
      symbol: 'p_c',
      name: 'pressure at the end of compression, without combustion',
      dimension: 'absolute-pressure',
      formula: 'p_m * CR^1.3',
      source: 'polytropic compression, exponent 1.3: Heywood, section 9.2.2',
      home,
    },
    [air.manifoldPressure, compression, air.chargeTemperature],
    (pressure, ratio, temperature) => endOfCompression({ pressure, temperature }, ratio).pressure,
  );
  w.figure(
    {
      id: 'compression-end-temperature',
      symbol: 'T_c',
      name: 'temperature at the end of compression, without combustion',
      dimension: 'temperature',
      formula: 'T_m * CR^0.3',
      source: 'polytropic compression, exponent 1.3: Heywood, section 9.2.2',
      home,
    },
    [air.chargeTemperature, compression, air.manifoldPressure],
    (temperature, ratio, pressure) => endOfCompression({ pressure, temperature }, ratio).temperature,
  );
}
