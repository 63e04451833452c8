import { notNegative, positive, within } from './bounds.ts';
import {
  hydrocarbonExpansion,
  type Viscosity,
  viscosityThrough,
  volumeCorrection,
  withinLiquidRange,
} from './fuel-properties.ts';
import {
  alcoholReidVaporPressure,
  e85ReidVaporPressures,
  reidOfEthanolBlend,
  reidVaporPressureLimits,
} from './reid-pressure.ts';

/** A liquid fuel. Composition is a mean formula, of which only the proportions count. */
export type Fuel = {
  name: string;
  /** Atoms in the mean formula. */
  carbon: number;
  hydrogen: number;
  oxygen: number;
  /** Density at 15 degC, kg/m3. */
  density15: number;
  /** Thermal expansion coefficient at 15 degC, 1/K. */
  expansion: number;
  viscosity: Viscosity;
  /** J/kg. */
  lowerHeatingValue: number;
  /** Heat to evaporate the liquid at 15 degC, J/kg. */
  latentHeat: number;
  /** Reid vapor pressure, Pa; undefined when not known. */
  reidVaporPressure: number | undefined;
  /** True when the gasoline vapor-pressure formula of AP-42 covers the fuel (hydrocarbons without alcohol). */
  vaporPressureApplies: boolean;
  /** Share of the volume that is ethanol. */
  ethanolShare: number;
  /** Share of the volume that is methanol. */
  methanolShare: number;
  /** A stoichiometric ratio stated by the user, which stands in for the one from the composition. */
  statedStoichiometricRatio: number | undefined;
  source: string;
};

/** Standard atomic weights, g/mol: IUPAC abridged values 2021 (Prohaska et al., Pure Appl. Chem. 94 (2022) 573). */
const CARBON = 12.011;
const HYDROGEN = 1.008;
const OXYGEN = 15.999;

/** Dry air per kmol of oxygen, kg: U.S. Standard Atmosphere 1976, Table 3 (M = 28.9644, 20.9476 % oxygen). */
export const AIR_PER_OXYGEN = 28.9644 / 0.209476;

const fuelTable = 'US DOE Alternative Fuels Data Center, Properties of Fuels (heating value, latent heat, viscosity)';

/**
 * Gasoline of 745 kg/m3, mean formula CH1.87 (Heywood, Internal Combustion Engine Fundamentals, Table D.4).
 * Viscosity: middle of the table's 0.5-0.6 mm2/s at 20 degC and 0.8-1.0 mm2/s at -20 degC. Reid vapor pressure:
 * summer class A limit.
 */
export const gasoline: Fuel = {
  name: 'gasoline',
  carbon: 1,
  hydrogen: 1.87,
  oxygen: 0,
  density15: 745,
  expansion: hydrocarbonExpansion(745),
  viscosity: viscosityThrough({ temperature: 293.15, viscosity: 0.55e-6 }, { temperature: 253.15, viscosity: 0.9e-6 }),
  lowerHeatingValue: 18676 * 2326,
  latentHeat: 150 * 2326,
  reidVaporPressure: reidVaporPressureLimits.A,
  vaporPressureApplies: true,
  ethanolShare: 0,
  methanolShare: 0,
  statedStoichiometricRatio: undefined,
  source: `${fuelTable}; CH1.87: Heywood Table D.4; Reid vapor pressure: ASTM D4814 class A`,
};

/**
 * Ethanol, C2H6O. Density and expansion: 793.5 kg/m3 and 1.08e-3 1/K at 15 degC, from memory, checked against an
 * equation of state. Viscosity 1.50 mm2/s at 20 degC, 3.435 at -20 degC and Reid vapor pressure 2.3 psi: fuel table.
 */
export const ethanol: Fuel = {
  name: 'ethanol',
  carbon: 2,
  hydrogen: 6,
  oxygen: 1,
  density15: 793.5,
  expansion: 1.08e-3,
  viscosity: viscosityThrough({ temperature: 293.15, viscosity: 1.5e-6 }, { temperature: 253.15, viscosity: 3.435e-6 }),
  lowerHeatingValue: 11585 * 2326,
  latentHeat: 396 * 2326,
  reidVaporPressure: alcoholReidVaporPressure.ethanol,
  vaporPressureApplies: false,
  ethanolShare: 1,
  methanolShare: 0,
  statedStoichiometricRatio: undefined,
  source: `${fuelTable}; density from memory`,
};

/**
 * Methanol, CH4O. Density and expansion: 795.7 kg/m3 and 1.18e-3 1/K at 15 degC, from memory, checked against an
 * equation of state. Viscosity 0.74 mm2/s at 20 degC, 1.345 at -20 degC and Reid vapor pressure 4.6 psi: fuel table.
 */
export const methanol: Fuel = {
  name: 'methanol',
  carbon: 1,
  hydrogen: 4,
  oxygen: 1,
  density15: 795.7,
  expansion: 1.18e-3,
  viscosity: viscosityThrough(
    { temperature: 293.15, viscosity: 0.74e-6 },
    { temperature: 253.15, viscosity: 1.345e-6 },
  ),
  lowerHeatingValue: 8637 * 2326,
  latentHeat: 506 * 2326,
  reidVaporPressure: alcoholReidVaporPressure.methanol,
  vaporPressureApplies: false,
  ethanolShare: 0,
  methanolShare: 1,
  statedStoichiometricRatio: undefined,
  source: `${fuelTable}; density from memory`,
};

/**
 * Mixture of two fuels with `volumeShare` (0 to 1) of `second`, both measured at 15 degC. Volumes are added without
 * the small excess volume of mixing; composition, heating value and latent heat follow the masses, expansion and the
 * logarithm of viscosity the volumes (Arrhenius's rule, an estimate). The Reid vapor pressure of a blend is not the
 * mean of its parts and is left undefined. Throws `RangeError` when the share is outside 0 to 1.
 */
export function blend(first: Fuel, second: Fuel, volumeShare: number): Fuel {
  within(volumeShare, 0, 1, 'The volume share of a blend');
  if (volumeShare === 0) return first;
  if (volumeShare === 1) return second;
  const density15 = mean(first.density15, second.density15, volumeShare);
  const massShare = (volumeShare * second.density15) / density15;
  const atoms = (of: 'carbon' | 'hydrogen' | 'oxygen') =>
    mean(first[of] / molarMass(first), second[of] / molarMass(second), massShare);
  const carbon = atoms('carbon');
  const stated = first.statedStoichiometricRatio !== undefined || second.statedStoichiometricRatio !== undefined;
  return {
    name: `${first.name} with ${Number((volumeShare * 100).toFixed(2))} % ${second.name}`,
    carbon: 1,
    hydrogen: atoms('hydrogen') / carbon,
    oxygen: atoms('oxygen') / carbon,
    density15,
    expansion: mean(first.expansion, second.expansion, volumeShare),
    viscosity: {
      a: mean(first.viscosity.a, second.viscosity.a, volumeShare),
      b: mean(first.viscosity.b, second.viscosity.b, volumeShare),
    },
    lowerHeatingValue: mean(first.lowerHeatingValue, second.lowerHeatingValue, massShare),
    latentHeat: mean(first.latentHeat, second.latentHeat, massShare),
    reidVaporPressure: undefined,
    vaporPressureApplies: first.vaporPressureApplies && second.vaporPressureApplies,
    ethanolShare: mean(first.ethanolShare, second.ethanolShare, volumeShare),
    methanolShare: mean(first.methanolShare, second.methanolShare, volumeShare),
    statedStoichiometricRatio: stated
      ? mean(stoichiometricRatio(first), stoichiometricRatio(second), massShare)
      : undefined,
    source: first.source === second.source ? first.source : `${first.source}; ${second.source}`,
  };
}

/**
 * Gasoline with `ethanolShare` (0 to 1) of ethanol by volume. Reid vapor pressure: the curve of `reidOfEthanolBlend` over
 * that of the gasoline. Throws `RangeError` when the share is outside 0 to 1.
 */
export function gasolineWithEthanol(ethanolShare: number): Fuel {
  const mixture = blend(gasoline, ethanol, ethanolShare);
  return { ...mixture, reidVaporPressure: reidOfEthanolBlend(reidVaporPressureLimits.A, ethanolShare) };
}

/** Gasoline with 10 % ethanol by volume. */
export const gasolineE10: Fuel = { ...gasolineWithEthanol(0.1), name: 'gasoline-e10' };

/**
 * E85 with 85 % ethanol by volume unless another share is given; the pump may sell 51 to 83 % (ASTM D5798). Reid vapor
 * pressure: highest of the hottest season's class.
 */
export function e85(ethanolShare = 0.85): Fuel {
  return { ...gasolineWithEthanol(ethanolShare), name: 'e85', reidVaporPressure: e85ReidVaporPressures[1].high };
}

/** The fuels a sheet can name. */
export const fuels = {
  gasoline,
  'gasoline-e10': gasolineE10,
  e85: e85(),
  ethanol,
  methanol,
} as const satisfies Record<string, Fuel>;

/** The name of a fuel in `fuels`. */
export type FuelName = keyof typeof fuels;

/** What a user may state of a fuel: densities in kg/m3, heating value in J/kg, pressures in Pa. */
export type StatedFuel = {
  name?: string;
  density15?: number;
  stoichiometricRatio?: number;
  lowerHeatingValue?: number;
  reidVaporPressure?: number;
};

/**
 * `base` with the stated properties in place of its own; its expansion goes with its density as a hydrocarbon's does. Throws `RangeError` for a density outside 600 to 1200 kg/m3,
 * a stoichiometric ratio outside 1 to 40, a heating value outside 5 to 130 MJ/kg, or a Reid vapor pressure outside
 * 0 to 300 kPa.
 */
export function customFuel(base: Fuel, stated: StatedFuel): Fuel {
  const { density15, stoichiometricRatio: ratio, lowerHeatingValue, reidVaporPressure } = stated;
  if (density15 !== undefined) within(density15, 600, 1200, 'The fuel density', 'density');
  if (ratio !== undefined) within(ratio, 1, 40, 'The stoichiometric air/fuel ratio');
  if (lowerHeatingValue !== undefined)
    within(lowerHeatingValue, 5e6, 130e6, 'The lower heating value', 'specific-energy');
  if (reidVaporPressure !== undefined)
    within(reidVaporPressure, 0, 300e3, 'The Reid vapor pressure', 'absolute-pressure');
  return {
    ...base,
    name: stated.name ?? base.name,
    density15: density15 ?? base.density15,
    expansion:
      density15 === undefined
        ? base.expansion
        : (base.expansion * hydrocarbonExpansion(density15)) / hydrocarbonExpansion(base.density15),
    lowerHeatingValue: lowerHeatingValue ?? base.lowerHeatingValue,
    reidVaporPressure: reidVaporPressure ?? base.reidVaporPressure,
    statedStoichiometricRatio: ratio ?? base.statedStoichiometricRatio,
    source: `as stated, otherwise ${base.source}`,
  };
}

/** Mass of the mean formula, kg/kmol. */
export function molarMass(composition: Pick<Fuel, 'carbon' | 'hydrogen' | 'oxygen'>): number {
  const { carbon, hydrogen, oxygen } = composition;
  const mass =
    CARBON * notNegative(carbon, 'The carbon count') +
    HYDROGEN * notNegative(hydrogen, 'The hydrogen count') +
    OXYGEN * notNegative(oxygen, 'The oxygen count');
  return positive(mass, 'The mass of the fuel formula');
}

/**
 * Oxygen needed to burn a fuel completely, kmol O2 per kg: (C + H/4 - O/2) / M.
 * Heywood, Internal Combustion Engine Fundamentals, section 3.4. Throws `RangeError` for a formula that needs none.
 */
export function oxygenDemand(composition: Pick<Fuel, 'carbon' | 'hydrogen' | 'oxygen'>): number {
  const { carbon, hydrogen, oxygen } = composition;
  return positive(carbon + hydrogen / 4 - oxygen / 2, 'The oxygen a fuel needs') / molarMass(composition);
}

/**
 * Stoichiometric air/fuel ratio, kg dry air per kg fuel: the stated one, else from C:H:O with IUPAC atomic weights and
 * the dry air of the U.S. Standard Atmosphere 1976. Heywood eq. 3.6. Throws `RangeError` for an impossible formula.
 */
export function stoichiometricRatio(
  fuel: Pick<Fuel, 'carbon' | 'hydrogen' | 'oxygen'> & { statedStoichiometricRatio?: number | undefined },
): number {
  return fuel.statedStoichiometricRatio ?? oxygenDemand(fuel) * AIR_PER_OXYGEN;
}

/** Density (kg/m3) at `temperature` (K), by ASTM D1250's volume correction. Throws `RangeError` outside -40 to 80 degC. */
export function density(fuel: Fuel, temperature: number): number {
  return fuel.density15 * volumeCorrection(fuel.expansion, temperature);
}

/**
 * Kinematic viscosity (m2/s) at `temperature` (K): Andrade's line through two points of the AFDC fuel table (20 and
 * -20 degC); above 20 degC it is extrapolated, for alcohols by under 7 % up to 80 degC. Throws `RangeError` outside -40 to 80 degC.
 */
export function kinematicViscosity(fuel: Fuel, temperature: number): number {
  return Math.exp(fuel.viscosity.a + fuel.viscosity.b / withinLiquidRange(temperature));
}

function mean(first: number, second: number, shareOfSecond: number): number {
  return first + (second - first) * shareOfSecond;
}
