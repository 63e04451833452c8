import type { HouseConfig } from '../generated/house-config.ts';
import type { System } from '../units/units.ts';
import type { Shelf } from './shelf.ts';

/** The house rules a folder of sheets is checked by, and the parts its catalogs hold. */
export type House = Partial<HouseConfig> & { shelf?: Shelf };

/** A folder without house rules. */
export const noHouse: House = {};

/** The units a house shows values in. */
export function unitsOf({ units = 'us' }: House): System {
  return units;
}
