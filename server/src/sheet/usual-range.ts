import { isQuantity } from '../units/quantity.ts';
import { readQuantity } from '../units/read.ts';
import { type FieldPath, fieldSchema } from './path.ts';
import type { FieldSchema } from './schema.ts';

/** The ends and the middle of the range a field usually has, as they would be written. */
export type UsualRange = { from: string; middle: string; to: string };

const ranges = new Map<FieldPath, UsualRange | undefined>();

/** The range a field usually has; nothing where the schema does not say. */
export function usualRange(field: FieldPath): UsualRange | undefined {
  if (!ranges.has(field)) ranges.set(field, rangeOf(fieldSchema(field)));
  return ranges.get(field);
}

/** Both ends are written in one unit. */
function rangeOf({ usually, dimension }: FieldSchema = {}): UsualRange | undefined {
  const from = usually && dimension && readQuantity(usually.from, dimension);
  if (!from || !isQuantity(from)) return undefined;
  const middle = (Number.parseFloat(usually.from) + Number.parseFloat(usually.to)) / 2;
  return { ...usually, middle: `${middle} ${from.unit}`.trim() };
}

/** What values a field can have and usually has, as a sentence; empty where the schema does not say. */
export function rangeLine({ allowed, usually }: Pick<FieldSchema, 'allowed' | 'usually'>): string {
  if (!allowed) return '';
  const usual = usually ? `; usually ${usually.from} to ${usually.to}` : '';
  return `Possible: ${allowed.from} to ${allowed.to}${usual}.`;
}
