import { positive, within } from './bounds.ts';
import { PSI } from './constants.ts';
import type { Range } from './demand.ts';

/** What may be stated of a fuel and can be wrong. */
export type FuelProperty = 'density' | 'heating-value' | 'stoichiometric-ratio' | 'vapor-pressure' | 'octane';

/** What a fuel is like as stated: density at 15 degC, kg/m3; heating value, J/kg; Reid vapor pressure, Pa; octane as AKI. */
export type StatedProperties = {
  readonly density?: number | undefined;
  readonly heatingValue?: number | undefined;
  readonly stoichiometricRatio?: number | undefined;
  readonly vaporPressure?: number | undefined;
  readonly octane?: number | undefined;
};

/** A stated property no such fuel has, with the range it would have. */
export type FuelDoubt = { readonly property: FuelProperty; readonly low: number; readonly high: number };

type Bounds = Readonly<Record<FuelProperty, Pick<Range, 'low' | 'high'>>>;

/**
 * What gasolines are like, pump and racing. Density 680 to 790 kg/m3 (EN 228 has 720 to 775 for the pump); heating value 41
 * to 45 MJ/kg; stoichiometric ratio 13.8 to 15.2; Reid vapor pressure 4 to 16 psi (ASTM D4814 up to 15); octane 70 to 120.
 * From memory, wide on purpose.
 */
const gasoline: Bounds = {
  density: { low: 680, high: 790 },
  'heating-value': { low: 41e6, high: 45e6 },
  'stoichiometric-ratio': { low: 13.8, high: 15.2 },
  'vapor-pressure': { low: 4 * PSI, high: 16 * PSI },
  octane: { low: 70, high: 120 },
};

/** The same of ethanol, with some water or denaturant in it. Octane: US DOE Alternative Fuels Data Center, RON 108 to 110, MON 90 to 92. */
const ethanol: Bounds = {
  density: { low: 780, high: 820 },
  'heating-value': { low: 25e6, high: 28.5e6 },
  'stoichiometric-ratio': { low: 8.6, high: 9.5 },
  'vapor-pressure': { low: 2 * PSI, high: 4 * PSI },
  octane: { low: 97, high: 116 },
};

/** The same of methanol. Octane: US DOE Alternative Fuels Data Center, RON 109, MON 89. */
const methanol: Bounds = {
  density: { low: 780, high: 810 },
  'heating-value': { low: 18.5e6, high: 21.5e6 },
  'stoichiometric-ratio': { low: 6.2, high: 7 },
  'vapor-pressure': { low: 4 * PSI, high: 6 * PSI },
  octane: { low: 97, high: 116 },
};

/**
 * Range a property of a blend has, by the shares of alcohol by volume: mean by volume of the ranges of its parts. The
 * vapor pressure of a blend stands above that mean, by up to 8 psi in winter classes of E85 (ASTM D5798).
 * @throws RangeError for a share not from 0 to 1
 */
export function plausibleRange(
  property: FuelProperty,
  ethanolShare: number,
  methanolShare: number,
): Pick<Range, 'low' | 'high'> {
  within(ethanolShare, 0, 1, 'The share of ethanol');
  within(methanolShare, 0, 1, 'The share of methanol');
  const rest = Math.max(0, 1 - ethanolShare - methanolShare);
  const mean = (end: 'low' | 'high') =>
    rest * gasoline[property][end] + ethanolShare * ethanol[property][end] + methanolShare * methanol[property][end];
  const isBlend = property === 'vapor-pressure' && rest > 0 && rest < 1;
  return { low: mean('low'), high: mean('high') + (isBlend ? 8 * PSI : 0) };
}

/**
 * What no fuel of these shares of alcohol is like: density 1000, a heating value of 20 MJ/kg for gasoline, E85 of 87 octane.
 * Empty when all that is stated may be. @throws RangeError for a stated property not above zero or a share not from 0 to 1
 */
export function fuelDoubts(
  stated: StatedProperties,
  shares: { ethanolShare: number; methanolShare: number },
): FuelDoubt[] {
  const values: [FuelProperty, number | undefined][] = [
    ['density', stated.density],
    ['heating-value', stated.heatingValue],
    ['stoichiometric-ratio', stated.stoichiometricRatio],
    ['vapor-pressure', stated.vaporPressure],
    ['octane', stated.octane],
  ];
  return values.flatMap(([property, value]) => {
    const { low, high } = plausibleRange(property, shares.ethanolShare, shares.methanolShare);
    if (value === undefined || (positive(value, 'What is stated of the fuel') >= low && value <= high)) return [];
    return [{ property, low, high }];
  });
}
