import { alcoholVaporPressure, hydrocarbonExpansion } from '../../server/src/engineering/fuel-properties.ts';
import * as fuels from '../../server/src/engineering/fuels.ts';
import { type Check, fromFirstSet } from './check.ts';
import { CELSIUS, PSI } from './units.ts';
import liquids from './values/liquids.json' with { type: 'json' };
import { worst } from './worst.ts';

const { gasoline, ethanol, methanol } = fuels;
const topic = 'fuels';
const first = (id: string, got: () => number) => fromFirstSet(id, 1, topic, got);
const formula = (carbon: number, hydrogen: number, oxygen = 0) => ({ carbon, hydrogen, oxygen });
const fixedDensities = (share: number) => {
  const lighter = fuels.customFuel(gasoline, { density15: 745 });
  const heavier = fuels.customFuel(ethanol, { density15: 789.3 });
  return fuels.blend(lighter, heavier, share);
};

const heywood = 'Heywood, Internal Combustion Engine Fundamentals (1988), Table D.4, from memory';
const afdc =
  'US DOE Alternative Fuels Data Center, Properties of Fuels (copy read: scribd.com/doc/77311085, scribd.com/doc/24043731)';
const eos = `${liquids['made with']} (equations of state; ethanol: Schroeder et al. 2014, methanol: de Reuck and Craven 1993)`;

const stoichiometry = (
  id: string,
  name: string,
  fuel: Parameters<typeof fuels.stoichiometricRatio>[0],
  expected: number,
): Check => ({
  id,
  section: 1,
  topic,
  what: `stoichiometric air/fuel ratio of ${name}`,
  got: () => fuels.stoichiometricRatio(fuel),
  expected,
  unit: 'kg/kg',
  tolerance: { relative: 0.003 },
  source: heywood,
});

const grid = (id: string, what: string, tolerance: number, got: () => number): Check => ({
  id,
  section: 1,
  topic,
  what: `Largest relative difference over a grid: ${what}`,
  got,
  expected: 0,
  unit: '-',
  tolerance: { absolute: tolerance },
  source: eos,
});

export const checks: Check[] = [
  first('S02', () => fuels.stoichiometricRatio(formula(7, 16))),
  first('S04', () => fuels.stoichiometricRatio(methanol)),
  first('S05', () => fuels.stoichiometricRatio(formula(7, 8))),
  first('S07', () => fuels.stoichiometricRatio(fixedDensities(0.85))),
  first('S08', () => fuels.stoichiometricRatio(fixedDensities(0.1))),
  first('S11', () => fuels.e85().density15),
  first('S12', () => gasoline.lowerHeatingValue / 1e6),
  first('S12d', () => gasoline.density15),
  first('S13', () => ethanol.lowerHeatingValue / 1e6),
  first('S13d', () => fuels.density(ethanol, 20 + CELSIUS)),
  first('S18', () => (gasoline.lowerHeatingValue * 745) / (fixedDensities(0.85).lowerHeatingValue * 782.65)),
  first(
    'S19',
    () =>
      (fuels.stoichiometricRatio(gasoline) * gasoline.density15) /
      (fuels.stoichiometricRatio(fixedDensities(0.85)) * fixedDensities(0.85).density15),
  ),
  stoichiometry('fuels-isooctane', 'iso-octane C8H18', formula(8, 18), 15.13),
  stoichiometry('fuels-methane', 'methane CH4', formula(1, 4), 17.23),
  stoichiometry('fuels-propane', 'propane C3H8', formula(3, 8), 15.67),
  stoichiometry('fuels-ethanol', 'ethanol C2H6O', ethanol, 9.0),
  stoichiometry('fuels-methanol', 'methanol CH4O', methanol, 6.47),
  stoichiometry('fuels-gasoline', 'gasoline CH1.87', gasoline, 14.6),
  {
    id: 'fuels-ethanol-formation',
    section: 1,
    topic,
    what: 'lower heating value of ethanol against enthalpies of formation',
    got: () => ethanol.lowerHeatingValue / 1e6,
    expected: 26.819,
    unit: 'MJ/kg',
    tolerance: { relative: 0.006 },
    source: 'Kotz et al., Chemistry and Chemical Reactivity, 9th ed., ch. 5; published values scatter by 0.5 %',
  },
  {
    id: 'fuels-methanol-volume',
    section: 1,
    topic,
    what: 'lower heating value of methanol per US gallon',
    got: () => (methanol.lowerHeatingValue * methanol.density15 * 3.785411784e-3) / 1055.056,
    expected: 57250,
    unit: 'Btu/gal',
    tolerance: { relative: 0.005 },
    source: afdc,
  },
  {
    id: 'fuels-methanol-density',
    section: 1,
    topic,
    what: 'density of methanol at 60 degF, specific gravity 0.796',
    got: () => fuels.density(methanol, 15.556 + CELSIUS),
    expected: 0.796 * 999.02,
    unit: 'kg/m3',
    tolerance: { relative: 0.001 },
    source: afdc,
  },
  {
    id: 'fuels-ethanol-vapor',
    section: 1,
    topic,
    what: 'vapor pressure of ethanol at 100 degF, as Reid vapor pressure 2.3 psi',
    got: () => alcoholVaporPressure('ethanol', 37.78 + CELSIUS) / PSI,
    expected: 2.3,
    unit: 'psi',
    tolerance: { absolute: 0.05 },
    source: afdc,
  },
  {
    id: 'fuels-methanol-vapor',
    section: 1,
    topic,
    what: 'vapor pressure of methanol at 100 degF, as Reid vapor pressure 4.6 psi',
    got: () => alcoholVaporPressure('methanol', 37.78 + CELSIUS) / PSI,
    expected: 4.6,
    unit: 'psi',
    tolerance: { absolute: 0.1 },
    source: afdc,
  },
  {
    id: 'fuels-ethanol-boiling',
    section: 1,
    topic,
    what: 'vapor pressure of ethanol at its boiling point, 351.5 K',
    got: () => alcoholVaporPressure('ethanol', 351.5) / 1e3,
    expected: 101.325,
    unit: 'kPa',
    tolerance: { relative: 0.01 },
    source: 'NIST Chemistry WebBook, boiling point 351.5 +/- 0.2 K, from memory',
  },
  {
    id: 'fuels-kerosene-expansion-rate',
    section: 1,
    topic,
    what: 'thermal expansion coefficient of kerosene of 810 kg/m3',
    got: () => hydrocarbonExpansion(810) * 1e6,
    expected: 950,
    unit: '1e-6/K',
    tolerance: { relative: 0.06 },
    source: 'common engineering tables give 900 to 1000e-6/K, from memory',
  },
  {
    id: 'fuels-gasoline-expansion-rate',
    section: 1,
    topic,
    what: 'thermal expansion coefficient of gasoline',
    got: () => hydrocarbonExpansion(745) * 1e6,
    expected: 1200,
    unit: '1e-6/K',
    tolerance: { relative: 0.05 },
    source:
      'common engineering tables give 950 to 1250e-6/K, from memory; a plausibility check of Table 54B coefficients',
  },
  grid('fuels-ethanol-density-grid', 'density of ethanol, -40 to 80 degC', 2.5e-3, () =>
    worst(liquids.ethanol.rows, 1, (temperature) => fuels.density(ethanol, temperature)),
  ),
  grid('fuels-methanol-density-grid', 'density of methanol, -40 to 80 degC', 2.5e-3, () =>
    worst(liquids.methanol.rows, 1, (temperature) => fuels.density(methanol, temperature)),
  ),
  grid('fuels-ethanol-viscosity-grid', 'kinematic viscosity of ethanol, -40 to 80 degC', 0.07, () =>
    worst(liquids.ethanol.rows, 2, (temperature) => fuels.kinematicViscosity(ethanol, temperature)),
  ),
  grid('fuels-methanol-viscosity-grid', 'kinematic viscosity of methanol, -40 to 80 degC', 0.07, () =>
    worst(liquids.methanol.rows, 2, (temperature) => fuels.kinematicViscosity(methanol, temperature)),
  ),
  grid('fuels-ethanol-vapor-grid', 'vapor pressure of ethanol, -20 to 80 degC', 0.06, () =>
    worst(liquids.ethanol.rows.slice(2), 3, (temperature) => alcoholVaporPressure('ethanol', temperature)),
  ),
  grid('fuels-methanol-vapor-grid', 'vapor pressure of methanol, -20 to 80 degC', 0.02, () =>
    worst(liquids.methanol.rows.slice(2), 3, (temperature) => alcoholVaporPressure('methanol', temperature)),
  ),
];
