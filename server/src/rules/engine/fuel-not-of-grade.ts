import { alcohol, grade } from '../../analysis/fuel.ts';
import { statedOctane } from '../../analysis/knock.ts';
import type { Draft, StageRule } from '../../checking/rule.ts';
import { type FuelProperty, fuelDoubts } from '../../engineering/fuel-doubts.ts';
import type { Fuel } from '../../generated/build-sheet.ts';
import { fuelName } from '../../remedies/fuel-name.ts';
import { roundedDown, roundedUp } from '../../remedies/size.ts';
import { formatIn } from '../../units/format.ts';

const FIELDS = {
  density: 'density',
  'heating-value': 'lower-heating-value',
  'stoichiometric-ratio': 'stoichiometric-ratio',
  'vapor-pressure': 'vapor-pressure',
  octane: 'octane',
} as const satisfies Record<FuelProperty, keyof Fuel>;

const NAMES: Record<FuelProperty, string> = {
  density: 'A density of',
  'heating-value': 'A heating value of',
  'stoichiometric-ratio': 'An air/fuel ratio of',
  'vapor-pressure': 'A Reid vapor pressure of',
  octane: 'An octane number of',
};

/** An octane number without decimals, with its kind where the sheet names one. */
function wholeOctane(end: number, unit = ''): string {
  return formatIn(Math.round(end), 'octane', unit);
}

export const rule: StageRule = {
  id: 'engine/fuel-not-of-grade',
  title: 'Fuel property out of range for this fuel',
  severity: 'warning',
  why: 'Fuel demand, pump delivery, boiling and knock all stand on what the fuel is like. A figure that no fuel of this kind has is a typo, a wrong unit or the wrong fuel, and everything worked out from it is wrong.',
  inspect: "Compare the figure and its unit with the fuel's data sheet or the label on the pump.",
  remedy: 'Correct the figure or the kind of fuel, or leave it out: the usual figure of that fuel then stands.',
  source: 'EN 228, ASTM D4814 and D5798, US DOE Alternative Fuels Data Center; ranges wide on purpose, from memory',
  check: ({ values, know, show }) => {
    const fields = values.fuel;
    const shares = know(alcohol);
    if (!fields || !shares) return undefined;
    const name = fuelName(know(grade));
    const stated = {
      density: fields.density?.value,
      heatingValue: fields['lower-heating-value']?.value,
      stoichiometricRatio: fields['stoichiometric-ratio']?.value,
      vaporPressure: fields['vapor-pressure']?.value,
      octane: know(statedOctane),
    };
    const doubts = fuelDoubts(stated, { ethanolShare: shares.ethanol, methanolShare: shares.methanol });
    return doubts.map(({ property, low, high }): Draft => {
      const field = FIELDS[property];
      const value = fields[field];
      const text = (end: number, round: typeof roundedUp) =>
        value && property !== 'octane' ? round(end, value) : wholeOctane(end, value?.unit);
      return {
        at: `fuel.${field}`,
        message: `${NAMES[property]} ${show(value)} is not that of ${name}, which has ${text(low, roundedDown)} to ${text(high, roundedUp)}.`,
        related: [{ at: 'fuel', message: 'The kind of fuel.' }],
        repairs: [{ title: 'Leave it out and take the usual figure of this fuel', remove: [`fuel.${field}`] }],
      };
    });
  },
};
