import { SPECIFIC_HEAT } from './air.ts';
import { notNegative, positive, within } from './bounds.ts';
import { HORSEPOWER, POUND_PER_HORSEPOWER_HOUR } from './constants.ts';
import { AIR_PER_OXYGEN, type Fuel, oxygenDemand } from './fuels.ts';

/** Molar mass of nitrous oxide, g/mol: 2 * 14.007 + 15.999. IUPAC abridged atomic weights 2021. */
const NITROUS_OXIDE = 2 * 14.007 + 15.999;

/** kg/J in 0.60 lb/(hp h), the fuel to plan for the added power, rich so as to run cool. Common practice. */
export const NITROUS_BSFC = 0.6 * POUND_PER_HORSEPOWER_HOUR;

/** Nitrous oxide to fuel by mass in use on gasoline, well on the rich side of chemistry's 9.3. Common practice, from memory. */
export const NITROUS_FUEL_RATIO = 6;

/** Share of a bottle's charge that leaves it as liquid before the pressure falls. Common practice, from memory. */
export const USABLE_SHARE = 0.85;

/** Ignition retard in degrees per watt of added power: 2 degrees per 50 hp. Common practice. */
const RETARD_PER_POWER = 2 / (50 * HORSEPOWER);

/**
 * Stoichiometric ratio of nitrous oxide to fuel by mass: 2 (C + H/4 - O/2) * 44.013 / M, from N2O -> N2 + 1/2 O2.
 * Chemistry with IUPAC atomic weights.
 */
export function stoichiometricNitrousRatio(fuel: Pick<Fuel, 'carbon' | 'hydrogen' | 'oxygen'>): number {
  return 2 * oxygenDemand(fuel) * NITROUS_OXIDE;
}

/** Share of chemistry's ratio of nitrous oxide to fuel above which a system has no room for a weak bottle or a clogged jet. */
export const nitrousRatioShare = {
  value: 0.75,
  source: 'common practice: 5 to 6.5 on gasoline, where chemistry has 9.3',
} as const;

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

/** Time (s) a bottle should last at least: a quarter mile and the burnout. Common practice. */
export const SHORTEST_BOTTLE_TIME = 15;

/**
 * Engine speed (rev/s) under which nitrous oxide should not flow, 3,000 rpm: it flows the same at any speed, so that each
 * cycle gets the more of it the slower the engine turns. Common practice, from memory: 2,500 to 3,000 rpm.
 */
export const LOWEST_NITROUS_SPEED = 50;

/**
 * Energy of a cycle with nitrous oxide over that without: (P + added) / P, powers in W. Torque and mean effective pressure
 * go with it, and the heat that compresses the end gas. Energy balance; efficiency and friction are taken as they were.
 * @throws RangeError unless the power is above zero and the added power not negative
 */
export function nitrousEnergyRatio(power: number, addedPower: number): number {
  return 1 + notNegative(addedPower, 'The added power') / positive(power, 'The power');
}

/**
 * Heat (J/kg) that liquid nitrous oxide takes up on its way to gas of 300 K: 256 kJ/kg from a bottle of 20 degC. Equation of
 * state (Lemmon and Span 2006), gas at 1 bar; the 374 kJ/kg often printed are for -88 degC, to which the bottle's liquid must first cool itself.
 */
const NITROUS_HEAT = 256e3;

/** Share of that heat taken from the charge, the rest from walls and burned gas. Common practice, no source. */
const NITROUS_COOLING_SHARE = 0.5;

/**
 * Fall (K) of the charge's temperature by nitrous oxide evaporating in it: share * flow * heat / (air flow * cp); flows in
 * kg/s. Energy balance; see `NITROUS_HEAT` and `NITROUS_COOLING_SHARE`. @throws RangeError for an air flow not above zero
 */
export function nitrousCooling(nitrousFlow: number, airFlow: number): number {
  const heat = NITROUS_COOLING_SHARE * NITROUS_HEAT * notNegative(nitrousFlow, 'The nitrous flow');
  return heat / (positive(airFlow, 'The air flow') * SPECIFIC_HEAT);
}
