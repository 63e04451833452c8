import { type Entry, entryAt, innerRange, writtenOf } from '../../sheet/entry.ts';
import { formatIn, formatNumber } from '../../units/format.ts';
import { parseQuantity } from '../../units/parse.ts';
import { isQuantity, type Quantity } from '../../units/quantity.ts';
import { type DimensionUnits, dimensions, findUnit } from '../../units/units.ts';
import type { Action, Asked } from './action.ts';

/** So many units are offered, those of everyday use first. */
const MOST_UNITS = 5;

/** Numbers that nobody would write are not offered. */
const SMALLEST = 0.01;
const LARGEST = 20_000;

/** How far a value may move when it is written with four figures. */
const ROUNDING = 1e-3;

/** The quantity at the cursor in other units. */
export function inOtherUnits({ checked: { sheet }, range }: Asked): Action[] {
  const entry = entryAt(sheet.root, range.start);
  const read = quantityOf(entry, sheet.text);
  if (!read || entry.inherited || entry.anchored) return [];
  const { us, si, units } = dimensions[read.dimension] as DimensionUnits;
  const names = [...new Set([...us, ...si, ...units.map(({ name }) => name)])].filter((name) => name !== read.unit);
  const place = innerRange(entry, sheet.text);
  const texts = names.flatMap((name) => written(read, name) ?? []).slice(0, MOST_UNITS);
  return texts.map((text) => ({ title: `Write it as ${text}`, kind: 'rewrite', edits: [{ ...place, text }] }));
}

function quantityOf(entry: Entry, text: string): Quantity | undefined {
  const { dimension } = entry.schema ?? {};
  if (entry.kind !== 'scalar' || !dimension) return undefined;
  const read = parseQuantity(writtenOf(entry, text), dimension);
  return isQuantity(read) && !read.isVacuum ? read : undefined;
}

/** A quantity in a unit, if it reads the same; with its ends where it has a tolerance. */
function written({ value, low, high, dimension }: Quantity, name: string): string | undefined {
  const unit = findUnit(dimension, name);
  if (!unit && name !== 'AWG') return undefined;
  const inUnit = (si: number) => (si - (unit?.offset ?? 0)) / (unit?.factor ?? 1);
  const size = Math.abs(inUnit(value));
  if (name !== 'AWG' && value !== 0 && (size < SMALLEST || size > LARGEST)) return undefined;
  const text =
    low === high
      ? formatIn(value, dimension, name)
      : `${formatNumber(inUnit(low))}..${formatNumber(inUnit(high))} ${name}`;
  const again = parseQuantity(text, dimension);
  const isSame = (one: number, other: number) => Math.abs(one - other) <= ROUNDING * Math.max(Math.abs(one), 1e-9);
  if (!isQuantity(again) || !isSame(value, again.value)) return undefined;
  return isSame(low, again.low) && isSame(high, again.high) ? text : undefined;
}
