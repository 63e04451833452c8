import { positive } from './bounds.ts';

/** Kinds of octane number: antiknock index (RON + MON) / 2, which US pumps show; research; motor. */
export type OctaneKind = 'AKI' | 'RON' | 'MON';

/** RON over MON of pump gasoline, where only one of them is known. */
export const sensitivity = { value: 8, source: 'common practice: 8 to 10 for pump gasoline' } as const;

/** An octane number as antiknock index: RON less 4, MON plus 4. Definition of AKI with `sensitivity`. @throws RangeError unless above zero */
export function antiknockIndex(octane: number, kind: OctaneKind): number {
  positive(octane, 'The octane number');
  if (kind === 'AKI') return octane;
  return kind === 'RON' ? octane - sensitivity.value / 2 : octane + sensitivity.value / 2;
}

/** Antiknock index of neat alcohols. US DOE Alternative Fuels Data Center, Properties of Fuels: RON 108 and 109, MON 90 and 89. */
export const alcoholAntiknock = { ethanol: 99, methanol: 99 } as const;

/** Antiknock index of the gasoline that pump blends of much alcohol are made with. Common practice, from memory. */
const BLENDSTOCK = 84;

/** Share of alcohol by volume from which a fuel has its octane from it, not from a sign on the pump. */
export const ALCOHOL_FUEL = 0.5;

/**
 * Antiknock index of a fuel mostly of alcohol, by shares by volume: mean of `alcoholAntiknock` and the gasoline in it. An
 * estimate: some 97 for 85 % ethanol. @throws RangeError as `antiknockIndex`
 */
export function antiknockOfAlcohol({ ethanol, methanol }: { ethanol: number; methanol: number }): number {
  const rest = Math.max(0, 1 - ethanol - methanol);
  return positive(
    ethanol * alcoholAntiknock.ethanol + methanol * alcoholAntiknock.methanol + rest * BLENDSTOCK,
    'The octane number',
  );
}
