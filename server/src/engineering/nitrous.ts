import { notNegative, positive, within } from './bounds.ts';
import { AIR_PER_OXYGEN, type Fuel, oxygenDemand } from './fuels.ts';

/** Molar mass of nitrous oxide, g/mol: 2 * 14.007 + 15.999. IUPAC abridged atomic weights 2021. */
const NITROUS_OXIDE = 2 * 14.007 + 15.999;

/** kg/J in 0.60 lb/(hp h), the fuel to plan for the added power, rich so as to run cool. Common practice. */
export const NITROUS_BSFC = (0.6 * 0.45359237) / (745.69987158227 * 3600);

/** Nitrous oxide to fuel by mass in use on gasoline, well on the rich side of chemistry's 9.6. Common practice, from memory. */
export const NITROUS_FUEL_RATIO = 6;

/** Share of a bottle's charge that leaves it as liquid before the pressure falls. Common practice, from memory. */
export const USABLE_SHARE = 0.85;

/** Ignition retard in degrees per watt of added power: 2 degrees per 50 hp. Common practice. */
const RETARD_PER_POWER = 2 / (50 * 745.69987158227);

/**
 * Stoichiometric ratio of nitrous oxide to fuel by mass: 2 (C + H/4 - O/2) * 44.013 / M, from N2O -> N2 + 1/2 O2.
 * Chemistry with IUPAC atomic weights.
 */
export function stoichiometricNitrousRatio(fuel: Pick<Fuel, 'carbon' | 'hydrogen' | 'oxygen'>): number {
  return 2 * oxygenDemand(fuel) * NITROUS_OXIDE;
}

/** Air (kg) that carries as much oxygen as 1 kg of nitrous oxide: 1.571. U.S. Standard Atmosphere 1976 air. */
export const AIR_PER_NITROUS = AIR_PER_OXYGEN / 2 / NITROUS_OXIDE;

/** Fuel flow (kg/s) for an added power (W) at a BSFC (kg/J). Definition of BSFC. */
export function nitrousFuel(addedPower: number, bsfc = NITROUS_BSFC): number {
  return positive(addedPower, 'The added power') * positive(bsfc, 'The BSFC');
}

/** Nitrous oxide flow (kg/s) that goes with a fuel flow (kg/s) at a ratio by mass. Definition. */
export function nitrousFlow(fuelFlow: number, ratio = NITROUS_FUEL_RATIO): number {
  return positive(fuelFlow, 'The fuel flow') * positive(ratio, 'The nitrous ratio');
}

/** How the added fuel gets in: `dry` through the injectors, `wet` through nozzles of its own. */
export type NitrousKind = 'dry' | 'wet';

/**
 * Fuel flows (kg/s) while nitrous oxide flows: through the injectors, and from pump and rail in all. The added fuel of a
 * dry system goes through the injectors, that of a wet one by-passes them; the pump feeds both. Mass balance.
 */
export function fuelWithNitrous(
  kind: NitrousKind,
  engineFuel: number,
  addedFuel: number,
): { injectors: number; total: number } {
  const total = positive(engineFuel, 'The fuel flow') + notNegative(addedFuel, 'The added fuel flow');
  return { injectors: kind === 'dry' ? total : engineFuel, total };
}

/**
 * Ignition retard (crank degrees) for an added power (W): about 2 degrees per 50 hp. Common practice: a first figure for
 * timing that the computer or a retard box takes out while nitrous oxide flows.
 */
export function nitrousRetard(addedPower: number): number {
  return notNegative(addedPower, 'The added power') * RETARD_PER_POWER;
}

/** Time (s) a charge (kg) lasts at a flow (kg/s) when `usable` (above 0, up to 1) of it leaves as liquid. Mass balance. */
export function bottleTime(charge: number, flow: number, usable = USABLE_SHARE): number {
  within(positive(usable, 'The usable share'), 0, 1, 'The usable share');
  return (positive(charge, 'The bottle charge') * usable) / positive(flow, 'The nitrous flow');
}
