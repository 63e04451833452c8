import type { HouseConfig } from '../generated/house-config.ts';

/** The house rules a folder of sheets is checked by. */
export type House = Partial<HouseConfig>;

/** A folder without house rules. */
export const noHouse: House = {};
