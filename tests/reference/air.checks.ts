import * as air from '../../server/src/engineering/air.ts';
import { brakeMeanEffectivePressure, powerOfTorque } from '../../server/src/engineering/demand.ts';
import { type Check, fromFirstSet } from './check.ts';
import { CELSIUS, CUBIC_FOOT_PER_MINUTE, CUBIC_INCH, HORSEPOWER, PSI, RPM } from './units.ts';
import gas from './values/gas.json' with { type: 'json' };
import { worst } from './worst.ts';

const topic = 'air';
const first = (id: string, got: () => number) => fromFirstSet(id, 2, topic, got);
const smallBlock = (speed: number, efficiency: number) =>
  air.engineVolumeFlow(350 * CUBIC_INCH, speed * RPM, efficiency);
const smallBlockMass = (altitude: number) =>
  air.massFlow(smallBlock(5500, 0.85), air.standardAir(altitude).density) * 1e3;

const iso = 'ISO 2533:1975 Table 5, read in the public fixtures of metanorma/atmospheric (tests-geopotential.yml)';
const isoRow = (altitude: number, pressure: number, density: number): Check[] => [
  {
    id: `air-pressure-${altitude}`,
    section: 2,
    topic,
    what: `standard pressure at ${altitude} m`,
    got: () => air.standardAir(altitude).pressure,
    expected: pressure,
    unit: 'Pa',
    tolerance: { relative: 2e-5 },
    source: iso,
  },
  {
    id: `air-density-${altitude}`,
    section: 2,
    topic,
    what: `standard density at ${altitude} m`,
    got: () => air.standardAir(altitude).density,
    expected: density,
    unit: 'kg/m3',
    tolerance: { relative: 2e-5 },
    source: iso,
  },
];

const grid = (id: string, what: string, column: number, got: (altitude: number) => number): Check => ({
  id,
  section: 2,
  topic,
  what: `Largest relative difference over a grid, -500 to 5000 m: ${what}`,
  got: () => worst(gas.atmosphere.rows, column, got),
  expected: 0,
  unit: '-',
  tolerance: { absolute: 3e-5 },
  source: `${gas['made with']}: ${gas.atmosphere.call}`,
});

const textbook = 'worked example 18.1 of a textbook on internal combustion engines, read as published code';

export const checks: Check[] = [
  first('P06', () => smallBlock(5500, 0.85) / CUBIC_FOOT_PER_MINUTE),
  first('P08', () => smallBlock(6000, 1) / CUBIC_FOOT_PER_MINUTE),
  first('P09', () => smallBlock(5500, 0.85)),
  first('P10', () => air.standardAir(0).pressure / 1e3),
  first('P11', () => air.standardAir(0).density),
  first('P15', () => air.standardAir(1500).density),
  first('P17', () => air.standardAir(2000).density),
  first('P18', () => smallBlockMass(0)),
  first('P19', () => smallBlockMass(1500)),
  first('P20', () => smallBlockMass(2000)),
  first('P28', () => brakeMeanEffectivePressure(300 * HORSEPOWER, 350 * CUBIC_INCH, 5000 * RPM) / PSI),
  first('P30', () => powerOfTorque(300 * 1.3558179483, 5252 * RPM) / HORSEPOWER),
  ...isoRow(-500, 107478, 1.28489),
  ...isoRow(1000, 89874.6, 1.11164),
  ...isoRow(2500, 74682.5, 0.956859),
  ...isoRow(4000, 61640.2, 0.819129),
  ...isoRow(5000, 54019.9, 0.736116),
  grid('air-pressure-grid', 'standard pressure', 1, (altitude) => air.standardAir(altitude).pressure),
  grid('air-temperature-grid', 'standard temperature', 2, (altitude) => air.standardAir(altitude).temperature),
  grid('air-density-grid', 'standard density', 3, (altitude) => air.standardAir(altitude).density),
  {
    id: 'air-supercharged-six',
    section: 2,
    topic,
    what: 'air drawn by six cylinders of 90 x 100 mm at 2500 rpm, VE 0.75, from 1.6 kgf/cm2 and 60 degC',
    got: () => {
      const displacement = 6 * (Math.PI / 4) * 0.09 ** 2 * 0.1;
      const density = air.airDensity(1.6e4 * 9.80665, 333);
      return air.massFlow(air.engineVolumeFlow(displacement, 2500 * RPM, 0.75), density) * 60;
    },
    expected: 5.871,
    unit: 'kg/min',
    tolerance: { relative: 0.002 },
    source: textbook,
  },
  {
    id: 'air-saturation',
    section: 2,
    topic,
    what: 'saturation pressure of water at 25 degC',
    got: () => air.saturationPressure(25 + CELSIUS),
    expected: 3169.9,
    unit: 'Pa',
    tolerance: { relative: 0.001 },
    source: 'steam tables (IAPWS), 3.1699 kPa at 25 degC, from memory',
  },
  {
    id: 'air-hot-day',
    section: 2,
    topic,
    what: 'density of dry air at 101.325 kPa and 40 degC',
    got: () => air.airDensity(101325, 40 + CELSIUS),
    expected: 1.1272,
    unit: 'kg/m3',
    tolerance: { relative: 0.001 },
    source: 'common tables of dry air: 1.127 kg/m3 at 40 degC and 1 atm, from memory',
  },
];
