import type { BuildSheet } from '../generated/build-sheet.ts';
import type { Path } from '../sheet/path.ts';
import { expectedOf } from '../sheet/read-values.ts';
import { child, type FieldSchema, root } from '../sheet/schema.ts';
import { quoted } from '../text/echo.ts';
import { estimate } from '../units/digits.ts';
import type { Range } from '../units/expected.ts';
import { takeApart } from '../units/grammar.ts';
import { isQuantity, isQuantityValue, type Quantity } from '../units/quantity.ts';
import { readQuantity } from '../units/read.ts';
import type { Finding, PlannedRepair } from './finding.ts';

/** Id of the finding that asks about a value far from what is usual. */
export const UNLIKELY = 'paper/unlikely-value';

/** A value as far from what is usual as a slip of the decimal point or of the unit would put it, each a finding; zero is none. */
export function unlikelyValues(values: Partial<BuildSheet>): Finding[] {
  const found: Finding[] = [];
  look(values, root, [], found);
  return found;
}

function look(value: unknown, schema: FieldSchema | undefined, path: Path, found: Finding[]): void {
  if (!schema || value === undefined || value === null) return;
  if (typeof value !== 'object' || isQuantityValue(value)) {
    const finding = schema.likely && judged(value as Quantity | number, schema, path);
    if (finding) found.push(finding);
  } else if (Array.isArray(value)) {
    for (const [index, item] of value.entries()) look(item, child(schema, index), [...path, index], found);
  } else {
    for (const [name, item] of Object.entries(value)) look(item, child(schema, name), [...path, name], found);
  }
}

function judged(value: Quantity | number, schema: FieldSchema, path: Path): Finding | undefined {
  const range = expectedOf(schema).likely;
  const size = typeof value === 'number' ? value : value.value;
  if (!range || size === 0 || isIn(size, range)) return undefined;
  const written = typeof value === 'number' ? String(value) : value.text;
  const inWords = (end: number) =>
    typeof value === 'number' ? String(end) : estimate(end, value.dimension, value.unit, 2);
  return {
    rule: UNLIKELY,
    found: UNLIKELY,
    severity: 'information',
    message: `${schema.title}: ${written} is unlikely, nearly all are ${inWords(range.from)} to ${inWords(range.to)}. Look at the decimal point and the unit.`,
    path,
    related: [],
    repairs: withPointMoved(value, range, path),
    stages: [],
  };
}

/** The value with its decimal point one place further, where that is usual. */
function withPointMoved(value: Quantity | number, range: Range, path: Path): PlannedRepair[] {
  return [10, 0.1].flatMap((factor) => {
    const moved = typeof value === 'number' ? wholeTimes(value, factor) : quantityTimes(value, factor);
    if (!moved || !isIn(moved.size, range)) return [];
    const { to } = moved;
    return [{ title: `Write ${quoted(String(to))}`, changes: [{ set: path, to }], safe: false, stage: 0 }];
  });
}

type Moved = { to: string | number; size: number };

function wholeTimes(number: number, factor: number): Moved | undefined {
  const to = times(number, factor);
  return Number.isInteger(to) ? { to, size: to } : undefined;
}

/** A quantity of one decimal number, with that number times a factor. */
function quantityTimes({ text, dimension }: Quantity, factor: number): Moved | undefined {
  const phrase = takeApart(text);
  if (!phrase || phrase.sign) return undefined;
  const { start, end } = phrase.first.number;
  const to = text.slice(0, start) + times(Number(text.slice(start, end)), factor) + text.slice(end);
  const read = readQuantity(to, dimension);
  return isQuantity(read) ? { to, size: read.value } : undefined;
}

function times(number: number, factor: number): number {
  return Number((number * factor).toPrecision(6));
}

function isIn(size: number, { from, to }: Range): boolean {
  return size >= from && size <= to;
}
