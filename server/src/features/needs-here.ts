import { asked } from '../fit/properties.ts';
import type { Entry } from '../sheet/entry.ts';
import type { FieldPath } from '../sheet/path.ts';
import { describedEntry, homePath } from './described.ts';

/** Needs that a hover has room for. */
const MOST = 2;

/** The numbers that the build asks for on the field or part at an offset: its own, and those right under it. */
export function neededAt(root: Entry, offset: number): readonly FieldPath[] {
  const entry = describedEntry(root, offset);
  if (!entry) return [];
  const home = homePath(entry.path);
  const isHere = (field: string) => field === home || field.slice(0, field.lastIndexOf('.')) === home;
  return asked.flatMap((one) => ('dimension' in one && isHere(one.field) ? [one.field] : [])).slice(0, MOST);
}
