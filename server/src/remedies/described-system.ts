import type { BuildSheet, FuelSystem } from '../generated/build-sheet.ts';

/** The fuel system, where it is written down from pump to regulator, so that a part not named is a part left out. */
export function describedSystem({ 'fuel-system': system }: Partial<BuildSheet>): FuelSystem | undefined {
  return system?.pump?.placement && system.feed && system.regulator ? system : undefined;
}
