import type { HouseConfig } from '../generated/house-config.ts';
import type { Units } from '../units/format.ts';
import type { Shelf } from './shelf.ts';
import { shownUnits } from './shown-units.ts';
import type { Logs } from './with-logs.ts';

/**
 * The house rules a folder of sheets is checked by, the parts its catalogs hold and the logs beside them; for one sheet also the units in which its
 * values are shown.
 */
export type House = Partial<HouseConfig> & { shelf?: Shelf; logs?: Logs; readonly shown?: Units };

/** A folder without house rules. */
export const noHouse: House = {};

/** The units in which values are shown. */
export function unitsIn({ shown, units = 'us' }: House): Units {
  return shown ?? units;
}

const folders = new WeakMap<House, House>();
const sheets = new WeakMap<House, Map<string, House>>();

/** The house rules of the folder behind those of a sheet. */
export function ofFolder(house: House): House {
  return folders.get(house) ?? house;
}

/** The house rules for one sheet; the same object for sheets with the same units. */
export function ofSheet(house: House, values: object): House {
  const folder = ofFolder(house);
  const shown = shownUnits(folder, values);
  const key = JSON.stringify(shown);
  const known = sheets.get(folder) ?? new Map<string, House>();
  const found = known.get(key) ?? { ...folder, shown };
  sheets.set(folder, known.set(key, found));
  folders.set(found, folder);
  return found;
}
