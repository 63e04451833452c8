import { positive } from './bounds.ts';
import { POUND_PER_HORSEPOWER_HOUR } from './constants.ts';
import { type Fuel, gasoline, stoichiometricRatio } from './fuels.ts';

/** How air gets into the engine: by itself or by the kind of compressor. */
export type Induction = 'natural' | 'roots' | 'centrifugal' | 'turbo';

/** A range with the value to use when nothing better is known. */
export type Range = { low: number; usual: number; high: number };

const bsfc = (low: number, usual: number, high: number): Range => ({
  low: low * POUND_PER_HORSEPOWER_HOUR,
  usual: usual * POUND_PER_HORSEPOWER_HOUR,
  high: high * POUND_PER_HORSEPOWER_HOUR,
});

/**
 * Full-load defaults and bounds by induction. `bsfc` in kg/J on gasoline, `lambda` the target at full load,
 * `volumetricEfficiency` (referred to ambient air) what is plausible at peak power: outside `low` to `high` a claim is out
 * of reach or a figure is wrong. All common practice. What mean effective pressure is plausible: `bmep.ts`.
 */
export const inductionDefaults: Record<
  Induction,
  { bsfc: Range; lambda: Range; volumetricEfficiency: Range; source: string }
> = {
  natural: {
    bsfc: bsfc(0.45, 0.5, 0.5),
    lambda: { low: 0.84, usual: 0.88, high: 0.92 },
    volumetricEfficiency: { low: 0.5, usual: 0.85, high: 1.15 },
    source: 'common practice',
  },
  roots: {
    bsfc: bsfc(0.55, 0.6, 0.6),
    lambda: { low: 0.76, usual: 0.8, high: 0.85 },
    volumetricEfficiency: { low: 0.7, usual: 1.2, high: 2 },
    source: 'common practice',
  },
  centrifugal: {
    bsfc: bsfc(0.55, 0.6, 0.6),
    lambda: { low: 0.76, usual: 0.8, high: 0.85 },
    volumetricEfficiency: { low: 0.7, usual: 1.3, high: 2.2 },
    source: 'common practice',
  },
  turbo: {
    bsfc: bsfc(0.6, 0.65, 0.65),
    lambda: { low: 0.74, usual: 0.78, high: 0.83 },
    volumetricEfficiency: { low: 0.7, usual: 1.4, high: 2.8 },
    source: 'common practice',
  },
};

/**
 * Brake specific fuel consumption (kg/J) of a fuel at the air and lambda of a gasoline figure (kg/J): scaled by the
 * stoichiometric ratios, since the air sets the power and lambda the fuel that goes with it. Common practice.
 */
export function bsfcOfFuel(gasolineBsfc: number, fuel: Fuel): number {
  return (positive(gasolineBsfc, 'The BSFC') * stoichiometricRatio(gasoline)) / stoichiometricRatio(fuel);
}

/** Range of BSFC (kg/J) by induction and fuel; see `inductionDefaults` and `bsfcOfFuel`. */
export function defaultBsfc(induction: Induction, fuel: Fuel): Range {
  const { low, usual, high } = inductionDefaults[induction].bsfc;
  return { low: bsfcOfFuel(low, fuel), usual: bsfcOfFuel(usual, fuel), high: bsfcOfFuel(high, fuel) };
}

/** Fuel flow (kg/s) for a brake power (W) at a BSFC (kg/J). Definition of BSFC; Heywood eq. 2.22. */
export function fuelDemandByPower(power: number, bsfc: number): number {
  return positive(power, 'The power') * positive(bsfc, 'The BSFC');
}

/** Brake power (W) a fuel flow (kg/s) supports at a BSFC (kg/J). Definition of BSFC; Heywood eq. 2.22. */
export function powerSupported(fuelFlow: number, bsfc: number): number {
  return positive(fuelFlow, 'The fuel flow') / positive(bsfc, 'The BSFC');
}

/** Fuel flow (kg/s) that goes with an air flow (kg/s) at lambda: air / (lambda * stoichiometric ratio). Heywood eq. 3.9. */
export function fuelDemandByAir(airFlow: number, lambda: number, fuel: Fuel): number {
  return positive(airFlow, 'The air flow') / (positive(lambda, 'Lambda') * stoichiometricRatio(fuel));
}

/** Air flow (kg/s) that burns a fuel flow (kg/s) at lambda; the inverse of `fuelDemandByAir`. */
export function airDemand(fuelFlow: number, lambda: number, fuel: Fuel): number {
  return positive(fuelFlow, 'The fuel flow') * positive(lambda, 'Lambda') * stoichiometricRatio(fuel);
}

/** Difference of the two fuel demands (kg/s) over their mean: above 0 when the demand by power is the larger. */
export function demandDisagreement(byPower: number, byAir: number): number {
  positive(byPower, 'The fuel demand by power');
  positive(byAir, 'The fuel demand by air');
  return (byPower - byAir) / ((byPower + byAir) / 2);
}

/** Brake mean effective pressure (Pa) of a four-stroke: 2 P / (Vd N); power W, displacement m3, speed rev/s. Heywood eq. 2.19a. */
export function brakeMeanEffectivePressure(power: number, displacement: number, speed: number): number {
  return (
    (2 * positive(power, 'The power')) /
    (positive(displacement, 'The displacement') * positive(speed, 'The engine speed'))
  );
}

/** Brake power (W) of a torque (N m) at a speed (rev/s): 2 pi N T. Heywood eq. 2.13. */
export function powerOfTorque(torque: number, speed: number): number {
  return 2 * Math.PI * positive(torque, 'The torque') * positive(speed, 'The engine speed');
}

/** Torque (N m) of a brake power (W) at a speed (rev/s). Heywood eq. 2.13. */
export function torqueOfPower(power: number, speed: number): number {
  return positive(power, 'The power') / (2 * Math.PI * positive(speed, 'The engine speed'));
}

/**
 * Volumetric efficiency a power claim implies: the air flow (kg/s) it needs over what the cylinders sweep at the given
 * air density (kg/m3); displacement m3, speed rev/s. Heywood eq. 2.27.
 */
export function impliedVolumetricEfficiency(
  airFlow: number,
  displacement: number,
  speed: number,
  airDensity: number,
): number {
  const swept = (positive(displacement, 'The displacement') * positive(speed, 'The engine speed')) / 2;
  return positive(airFlow, 'The air flow') / (swept * positive(airDensity, 'The air density'));
}

/** Brake thermal efficiency at a BSFC (kg/J): 1 / (BSFC * lower heating value). Heywood eq. 2.24. */
export function brakeThermalEfficiency(bsfc: number, fuel: Fuel): number {
  return 1 / (positive(bsfc, 'The BSFC') * fuel.lowerHeatingValue);
}
