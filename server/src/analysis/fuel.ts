import {
  customFuel,
  density,
  e85,
  ethanol,
  type Fuel,
  fuels,
  gasolineWithEthanol,
  kinematicViscosity,
  methanol,
  stoichiometricRatio,
} from '../engineering/fuels.ts';
import {
  alcoholReidVaporPressure,
  e85ReidVaporPressures,
  reidOfEthanolBlend,
  usualReidVaporPressure,
} from '../engineering/reid-pressure.ts';
import type { Fuel as FuelFields } from '../generated/build-sheet.ts';
import { coldestDay, hottestDay } from './air.ts';
import { choice, fact, field, figure, optional } from './node.ts';

type Grade = NonNullable<FuelFields['grade']>;

const HOME = ['fuel'] as const;

export const grade = choice<Grade>('fuel.grade', 'grade', {
  value: 'gasoline-e10',
  because: 'most pump gasoline; common practice',
});

const statedShare = optional(field('fuel.ethanol-share', 'x_e'));

const baseFuel = fact({
  id: 'base-fuel',
  from: { grade, statedShare },
  compute: ({ grade, statedShare }) => fuelOfGrade(grade, statedShare),
});

function fuelOfGrade(grade: Grade, share: number | undefined): Fuel {
  if (grade === 'methanol') return methanol;
  if (share === undefined) return fuels[grade];
  if (grade === 'ethanol') return share === 1 ? ethanol : gasolineWithEthanol(share);
  return grade === 'e85' ? e85(share) : { ...gasolineWithEthanol(share), name: grade };
}

/** Share of ethanol by volume. */
export const ethanolShare = field('fuel.ethanol-share', 'x_e', {
  from: { grade },
  compute: ({ grade }) => fuelOfGrade(grade, undefined).ethanolShare,
  because: 'usual for the grade',
});

const statedRatio = optional(field('fuel.stoichiometric-ratio', 'AFR_st'));
const statedDensity = optional(field('fuel.density', 'rho_15'));
const statedHeat = optional(field('fuel.lower-heating-value', 'LHV'));

/** Reid vapor pressure, Pa. */
export const reidPressure = field('fuel.vapor-pressure', 'RVP', {
  from: { grade, statedShare, hottestDay },
  compute: ({ grade, statedShare, hottestDay }) => usualReid(grade, statedShare, hottestDay).pressure,
  because: ({ grade, statedShare, hottestDay }) => usualReid(grade, statedShare, hottestDay).because,
});

const USUAL_GASOLINE = 'common practice: gasoline of 7.8 psi where the hottest day is above 35 degC, else of 9 psi';

/** Reid vapor pressure, Pa, of a grade sold where a day, K, gets so hot, and where it is from. */
function usualReid(grade: Grade, stated: number | undefined, day: number): { pressure: number; because: string } {
  if (grade === 'methanol') return { pressure: alcoholReidVaporPressure.methanol, because: NEAT_SOURCE };
  if (grade === 'e85')
    return { pressure: e85ReidVaporPressures[1].high, because: 'ASTM D5798 class 1, the most it allows' };
  const share = stated ?? fuels[grade].ethanolShare;
  if (share === 1) return { pressure: alcoholReidVaporPressure.ethanol, because: NEAT_SOURCE };
  const gasoline = usualReidVaporPressure(day);
  if (share === 0) return { pressure: gasoline, because: USUAL_GASOLINE };
  return {
    pressure: reidOfEthanolBlend(gasoline, share),
    because: `${USUAL_GASOLINE}; with what this share of ethanol changes: 1 psi more at 10 %, US volatility rule`,
  };
}

const NEAT_SOURCE = 'US DOE Alternative Fuels Data Center';

/** The fuel as far as its makeup and its air go. */
export const chemistry = fact({
  id: 'chemistry-of-fuel',
  from: { baseFuel, statedRatio },
  compute: ({ baseFuel, statedRatio }) => stated(baseFuel, { stoichiometricRatio: statedRatio }),
});

/** The fuel as far as its energy goes. */
export const energy = fact({
  id: 'energy-of-fuel',
  from: { baseFuel, statedHeat },
  compute: ({ baseFuel, statedHeat }) => stated(baseFuel, { lowerHeatingValue: statedHeat }),
});

/** The fuel as far as its volume goes. */
const volumeFuel = fact({
  id: 'volume-of-fuel',
  from: { baseFuel, statedDensity },
  compute: ({ baseFuel, statedDensity }) => stated(baseFuel, { density15: statedDensity }),
});

function stated(base: Fuel, values: Record<string, number | undefined>): Fuel {
  const known = Object.entries(values).filter(([, value]) => value !== undefined);
  return known.length ? customFuel(base, Object.fromEntries(known)) : base;
}

/** Ethanol and methanol in the fuel, shares by volume. */
export const alcohol = fact({
  id: 'alcohol',
  from: { grade, ethanolShare },
  compute: ({ grade, ethanolShare }) =>
    grade === 'methanol' ? { ethanol: 0, methanol: 1 } : { ethanol: ethanolShare, methanol: 0 },
});

/** Temperature of the fuel when it is hottest, K. */
export const hottestFuel = field('site.hottest-fuel', 'T_f', {
  from: { hottestDay },
  compute: ({ hottestDay }) => hottestDay + 10,
  because: 'common practice: the hottest day plus 10 K, returned fuel warms the tank',
});

export const stoichiometric = figure({
  id: 'stoichiometric-ratio',
  symbol: 'AFR_st',
  name: 'stoichiometric air/fuel ratio',
  dimension: 'ratio-number',
  formula: '(C + H/4 - O/2) * 138.27 g/mol / (12.011 C + 1.008 H + 15.999 O) g/mol',
  source: 'Heywood, Internal Combustion Engine Fundamentals (1988), eq. 3.6; IUPAC atomic weights 2021',
  home: HOME,
  notes: ({ fuel }) => (fuel.statedStoichiometricRatio === undefined ? [] : ['as stated in the sheet']),
  from: { grade, ethanolShare, fuel: chemistry },
  compute: ({ fuel }) => stoichiometricRatio(fuel),
});

export const fuelDensity = figure({
  id: 'fuel-density',
  symbol: 'rho_f',
  name: 'fuel density at 15 degC',
  dimension: 'density',
  formula: 'x_e rho_ethanol + (1 - x_e) rho_gasoline',
  source: ({ fuel }) => fuel.source,
  home: HOME,
  from: { grade, ethanolShare, fuel: volumeFuel },
  compute: ({ fuel }) => fuel.density15,
});

export const hotFuelDensity = figure({
  id: 'hot-fuel-density',
  symbol: 'rho_hot',
  name: 'fuel density when hottest',
  dimension: 'density',
  formula: 'rho_f * volume correction(T_f)',
  source: 'ASTM D1250-80 (API MPMS 11.1, 1980) form; coefficients see the fuel',
  home: HOME,
  from: { fuelDensity, hottestFuel, fuel: volumeFuel },
  compute: ({ fuel, hottestFuel }) => density(fuel, hottestFuel),
});

export const coldFuelDensity = figure({
  id: 'cold-fuel-density',
  symbol: 'rho_cold',
  name: 'fuel density on the coldest day',
  dimension: 'density',
  formula: 'rho_f * volume correction(T_cold)',
  source: 'ASTM D1250-80 (API MPMS 11.1, 1980) form; coefficients see the fuel',
  home: HOME,
  from: { fuelDensity, coldestDay, fuel: volumeFuel },
  compute: ({ fuel, coldestDay }) => density(fuel, coldestDay),
});

export const fuelViscosity = figure({
  id: 'fuel-viscosity',
  symbol: 'nu',
  name: 'kinematic viscosity of the fuel at 15 degC',
  dimension: 'viscosity',
  formula: 'exp(a + b / T)',
  source: 'Andrade, Philosophical Magazine 17 (1934) 497, through two points of the AFDC fuel table',
  home: HOME,
  notes: ['15 degC is taken for the lines: cold fuel loses more pressure than hot fuel'],
  from: { grade, ethanolShare, fuel: baseFuel },
  compute: ({ fuel }) => kinematicViscosity(fuel, 288.15),
});
