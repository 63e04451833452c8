import type { Estimate } from '../analysis/figure.ts';
import { alcohol } from '../analysis/fuel.ts';
import { railPressureSet } from '../analysis/regulator.ts';
import { highestPressure } from '../analysis/supply.ts';
import type { Situation } from '../checking/rule.ts';
import { type LineClass, lineClasses } from '../engineering/hoses.ts';
import type { BuildSheet, Line } from '../generated/build-sheet.ts';
import type { Quantity } from '../units/quantity.ts';

type Material = NonNullable<Line['material']>;

/** The weakest class that may be sold under the name of a material. */
export const classOf: Record<Material, string> = {
  'rubber-low-pressure': 'SAE J30 R6',
  'rubber-injection': 'SAE J30 R9',
  'rubber-injection-alcohol': 'SAE J30 R12',
  ptfe: 'PTFE-lined braided hose',
  nylon: 'SAE J2260',
  'steel-tube': 'steel tube',
  'aluminum-tube': 'aluminum tube',
};

/** What a material is called in a sentence. */
export const materialName: Record<Material, string> = {
  'rubber-low-pressure': 'carburetor hose',
  'rubber-injection': 'rubber injection hose',
  'rubber-injection-alcohol': 'low-permeation injection hose',
  ptfe: 'PTFE-lined hose',
  nylon: 'nylon tube',
  'steel-tube': 'steel tube',
  'aluminum-tube': 'aluminum tube',
};

export function lineClassOf(material: Material): LineClass {
  const found = lineClasses.find(({ name }) => name === classOf[material]);
  if (!found) throw new RangeError(`No class of line is known for ${material}.`);
  return found;
}

/** Working pressure of a material, Pa: what every line of it stands, and what the best of it are printed with. */
export function workingPressure(material: Material): { sure: number; best: number } {
  const { workingPressure: sure, printedUpTo } = lineClassOf(material);
  return { sure, best: printedUpTo ?? sure };
}

export type LineName = 'feed' | 'return' | 'suction';

/** The lines the sheet has, in the order the fuel goes. */
export function linesOf(values: Partial<BuildSheet>): { name: LineName; line: Line }[] {
  const names = ['suction', 'feed', 'return'] as const;
  return names.flatMap((name) => {
    const line = values['fuel-system']?.[name];
    return line ? [{ name, line }] : [];
  });
}

/** Ethanol and methanol in the fuel, shares by volume, with the house's fuel where the sheet names none. */
export function alcoholOf({ know }: Pick<Situation, 'know'>): { ethanol: number; methanol: number } {
  return know(alcohol) ?? { ethanol: 0, methanol: 0 };
}

/** The highest pressure in the feed line: what the pump can make of it, up to where its relief valve opens. */
export function feedPressure({ values, see }: Pick<Situation, 'values' | 'see'>): Estimate | Quantity | undefined {
  const highest = see(highestPressure) ?? see(railPressureSet);
  const relief = values['fuel-system']?.pump?.['relief-pressure'];
  return highest && relief && relief.value < highest.value ? relief : highest;
}
