import type { Settings } from '../checking/rule.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';

/** The reference a regulator needs once the injectors spray against boost, where the sheet has one that lacks it. */
export function referencedRegulator(values: Partial<BuildSheet>): Settings {
  const regulator = values['fuel-system']?.regulator;
  if (!regulator || regulator.reference === 'manifold') return {};
  return { 'fuel-system.regulator.reference': 'manifold' };
}
