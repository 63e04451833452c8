import { valueAt } from '../sheet/path.ts';
import { entryOf } from '../sheet/read.ts';
import { type Slot, slots } from '../sheet/slots.ts';
import type { Choosing, Values } from './choosing.ts';
import { fittedAt } from './slot-values.ts';

/** Parts that not every build has, or that are in the car: open only where the sheet leaves room for them. */
const OPTIONAL = new Set(['intake', 'adapter', 'tank', 'lift-pump', 'suction', 'lift-pump-circuit', 'fan-circuit']);

/** The slots that a sheet says nothing of that tells which part is there, and for which the catalogs have any. */
export function openSlots(choosing: Choosing): Slot[] {
  const { sheet } = choosing.checked;
  return slots.filter((slot) => {
    if (choosing.candidates(slot).length === 0) return false;
    if (slot.name === 'tank' && sheet.values.wishes?.['keep-tank']) return false;
    if (OPTIONAL.has(slot.name) && !entryOf(sheet, slot.path)) return false;
    const outer = slots.find((other) => other !== slot && slot.field.startsWith(`${other.field}.`));
    if (outer?.name === 'throttle-body') return false;
    return !isDescribed(sheet.values, slot);
  });
}

function isDescribed(values: Values, slot: Slot): boolean {
  const section = valueAt(values, slot.path);
  if (typeof section !== 'object' || section === null) return false;
  const fitted = fittedAt(values, slot);
  return Object.entries(section).some(([name, value]) => value !== undefined && !(name in fitted));
}
