import type { BuildSheet } from '../generated/build-sheet.ts';
import { type HosePlan, hosePlan } from '../sheet/hose.ts';
import { valueAt } from '../sheet/path.ts';
import type { ShelfPart } from '../sheet/shelf.ts';
import { piecesOf, type Slot } from '../sheet/slots.ts';
import { isQuantityValue } from '../units/quantity.ts';

/** How many of a part a slot takes: pieces, or for what is sold by length the steps that cover the run. */
function piecesFor(values: Partial<BuildSheet>, slot: Slot, part: ShelfPart): number | undefined {
  if (part.kind === 'line' && part.costPer) return hoseFor(values, part, [slot])?.pieces;
  const size = slot.name === 'throttle-body' ? part.fields['set-size'] : undefined;
  if (typeof size === 'number') return size;
  return piecesOf(slot, values);
}

/** What is bought of a hose for these runs; nothing where it is not known how long one is, or it is longer than a piece. */
export function hoseFor(values: Partial<BuildSheet>, part: ShelfPart, runs: readonly Slot[]): HosePlan | undefined {
  const lengths = runs.map(({ path }) => valueAt(values, [...path, 'length']));
  const known = lengths.flatMap((length) => (isQuantityValue(length) ? [length.value] : []));
  return known.length === runs.length ? hosePlan(part, known) : undefined;
}

/** What a part costs in a slot; nothing where its price, or how much of it is needed, is not known. */
export function costOf(values: Partial<BuildSheet>, slot: Slot, part: ShelfPart): number | undefined {
  const pieces = piecesFor(values, slot, part);
  return pieces === undefined || part.cost === undefined ? undefined : pieces * part.cost;
}

/** A sum that is not known as soon as one of its parts is not. */
export function sumOf(costs: readonly (number | undefined)[]): number | undefined {
  return costs.reduce<number | undefined>(
    (sum, one) => (sum === undefined || one === undefined ? undefined : sum + one),
    0,
  );
}
