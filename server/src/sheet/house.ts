import type { HouseConfig } from '../generated/house-config.ts';
import type { Shelf } from './shelf.ts';

/** The house rules a folder of sheets is checked by, and the parts its catalogs hold. */
export type House = Partial<HouseConfig> & { shelf?: Shelf };

/** A folder without house rules. */
export const noHouse: House = {};
