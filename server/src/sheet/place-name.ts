import { quoted } from '../text/echo.ts';
import { isQuantityValue } from '../units/quantity.ts';
import { nameOf } from './differing.ts';
import { pathText } from './entry.ts';
import { type Path, valueAt } from './path.ts';

/** What an item of a list is called in trade words. */
const ITEMS: Readonly<Record<string, string>> = {
  stages: 'stage',
  notes: 'note',
  silence: 'silenced finding',
  parts: 'part',
};

/** A place of a sheet in words: stages by their name, parts by their id, notes by their date. */
export function placeName(place: Path, values: unknown): string {
  const at = place.findIndex((step) => typeof step === 'number');
  const list = String(place[at - 1]);
  const noun = ITEMS[list];
  const name = at < 0 ? undefined : nameOf(valueAt(values, place.slice(0, at + 1)));
  if (!noun || at !== 1) return pathText(place);
  const item = `${noun} ${name === undefined ? Number(place[at]) + 1 : quoted(name)}`;
  const rest = place.slice(at + 1);
  if (rest.length === 0) return item;
  return rest[0] === 'changes' && rest.length > 1
    ? `${pathText(rest.slice(1))} in ${item}`
    : `${pathText(rest)} of ${item}`;
}

/** A value of a sheet as it would be written on one line; quantities as they were written. */
export function writtenValue(value: unknown): string {
  if (value === undefined || value === null) return 'not given';
  if (isQuantityValue(value)) return value.text;
  if (Array.isArray(value)) return `[${value.map(writtenValue).join(', ')}]`;
  if (typeof value !== 'object') return String(value);
  const fields = Object.entries(value).map(([name, inner]) => `${name}: ${writtenValue(inner)}`);
  return `{ ${fields.join(', ')} }`;
}
