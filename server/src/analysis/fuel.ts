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
import type { Fuel as FuelFields } from '../generated/build-sheet.ts';
import type { Maybe } from './figure.ts';
import type { Worksheet } from './worksheet.ts';

const HOME = ['fuel'];

export type FuelTerms = {
  fuel: Fuel;
  grade: Maybe;
  density: Maybe;
  hotDensity: Maybe;
  viscosity: Maybe;
  stoichiometric: Maybe;
  hottestFuel: Maybe;
};

/** The fuel of a stage, with the sheet's own figures in place of the grade's usual ones. */
export function fuelOf(fields: FuelFields | undefined): Fuel {
  const share = fields?.['ethanol-share']?.value;
  const base = baseFuel(fields?.grade ?? 'gasoline-e10', share);
  const stated = {
    ...(fields?.density && { density15: fields.density.value }),
    ...(fields?.['stoichiometric-ratio'] && { stoichiometricRatio: fields['stoichiometric-ratio'].value }),
    ...(fields?.['lower-heating-value'] && { lowerHeatingValue: fields['lower-heating-value'].value }),
    ...(fields?.['vapor-pressure'] && { reidVaporPressure: fields['vapor-pressure'].value }),
  };
  return Object.keys(stated).length ? customFuel(base, stated) : base;
}

function baseFuel(grade: NonNullable<FuelFields['grade']>, share: number | undefined): Fuel {
  if (grade === 'methanol') return methanol;
  if (share === undefined) return fuels[grade];
  if (grade === 'ethanol') return share === 1 ? ethanol : gasolineWithEthanol(share);
  return grade === 'e85' ? e85(share) : { ...gasolineWithEthanol(share), name: grade };
}

/** Density, viscosity and air/fuel ratio of the fuel. */
export function fuelFigures(w: Worksheet, houseFuel: FuelFields | undefined): FuelTerms {
  const fields = w.stage.values.fuel ?? houseFuel;
  const fuel = fuelOf(fields);
  const gradeAssumed = fields?.grade ? undefined : 'most pump gasoline; common practice';
  const grade = w.choice('fuel.grade', 'grade', fields?.grade ?? 'gasoline-e10', gradeAssumed);
  const share = w.given('fuel.ethanol-share', 'x_e', { value: fuel.ethanolShare, because: 'usual for the grade' });
  const hottest = w.given('site.hottest', 'T_day', { value: 308.15, because: 'common practice: a 35 degC day' });
  const hottestFuel = w.given('site.hottest-fuel', 'T_f', {
    value: ('value' in hottest ? hottest.value : 308.15) + 10,
    because: 'common practice: the hottest day plus 10 K, returned fuel warms the tank',
  });
  const stoichiometric = w.figure(
    {
      id: 'stoichiometric-ratio',
      symbol: 'AFR_st',
      name: 'stoichiometric air/fuel ratio',
      dimension: 'ratio-number',
      formula: '(C + H/4 - O/2) * 138.27 / (12.011 C + 1.008 H + 15.999 O)',
      source: 'Heywood, Internal Combustion Engine Fundamentals, eq. 3.6; IUPAC atomic weights 2021',
      home: HOME,
      notes: fuel.statedStoichiometricRatio === undefined ? [] : ['as stated in the sheet'],
    },
    [grade, share],
    () => stoichiometricRatio(fuel),
  );
  const densityFigure = w.figure(
    {
      id: 'fuel-density',
      symbol: 'rho_f',
      name: 'fuel density at 15 degC',
      dimension: 'density',
      formula: 'x_e rho_ethanol + (1 - x_e) rho_gasoline',
      source: fuel.source,
      home: HOME,
    },
    [grade, share],
    () => fuel.density15,
  );
  const hotDensity = w.figure(
    {
      id: 'hot-fuel-density',
      symbol: 'rho_hot',
      name: 'fuel density when hottest',
      dimension: 'density',
      formula: 'rho_f * volume correction(T_f)',
      source: 'ASTM D1250 / API MPMS 11.1 form; coefficients see the fuel',
      home: HOME,
    },
    [densityFigure, hottestFuel],
    (_, temperature) => density(fuel, temperature),
  );
  const viscosity = w.figure(
    {
      id: 'fuel-viscosity',
      symbol: 'nu',
      name: 'kinematic viscosity of the fuel at 15 degC',
      dimension: 'viscosity',
      formula: 'exp(a + b / T)',
      source: 'Andrade, Philosophical Magazine 17 (1934) 497, through two points of the AFDC fuel table',
      home: HOME,
      notes: ['15 degC is taken for the lines: cold fuel loses more pressure than hot fuel'],
    },
    [grade, share],
    () => kinematicViscosity(fuel, 288.15),
  );
  return { fuel, grade, density: densityFigure, hotDensity, viscosity, stoichiometric, hottestFuel };
}
