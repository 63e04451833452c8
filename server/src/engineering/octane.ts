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

/** An antiknock index as another kind of octane number. Definition of AKI with `sensitivity`. @throws RangeError unless above zero */
export function octaneOf(antiknock: number, kind: OctaneKind): number {
  return 2 * positive(antiknock, 'The octane number') - antiknockIndex(antiknock, kind);
}

/** Antiknock index of neat alcohols. US DOE Alternative Fuels Data Center, Properties of Fuels: RON 108 and 109, MON 90 and 89. */
export const alcoholAntiknock = { ethanol: 99, methanol: 99 } as const;
