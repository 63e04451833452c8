import type { NewValue } from '../sheet/edit.ts';
import { child, type FieldSchema, knownChoices, resolve } from '../sheet/schema.ts';
import { meant } from '../sheet/words.ts';
import { echo } from '../text/echo.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity } from '../units/quantity.ts';
import { type DimensionUnits, dimensions, type System } from '../units/units.ts';

/** What an answer says, or why it cannot be what is asked for. */
export type Answer = { value: NewValue } | { refusal: string };

const YES = /^(y|yes|true|yep|yeah)$/i;
const NO = /^(n|no|false|nope)$/i;

/**
 * An answer as it is typed, as the value a field takes: a choice by its name, its beginning or another name of the trade, or nearly; `yes`
 * and `no`; a number without its unit in the unit that was shown. Whether the field allows the value, reading the text
 * with it tells.
 */
export function answerOf(typed: string, schema: FieldSchema | undefined, system: System): Answer {
  const text = typed.trim();
  if (!schema || text === '') return { refusal: 'Type an answer, or say that it is not known yet.' };
  if (schema.enum) return choiceOf(text, schema);
  if (schema.type === 'boolean') return truthOf(text);
  if (schema.dimension) return { value: withUnit(text, schema, system) };
  if (schema.type === 'array') return listOf(text, schema, system);
  return schema.type === 'integer' || schema.type === 'number' ? numberOf(text) : { value: text };
}

function choiceOf(text: string, schema: FieldSchema): Answer {
  const begun = schema.enum?.filter((choice) => choice.startsWith(text.toLowerCase())) ?? [];
  const value = begun.length === 1 ? begun[0] : meant(text, knownChoices(schema));
  return value ? { value } : { refusal: `"${echo(text)}" is none of ${schema.enum?.join(', ')}.` };
}

function truthOf(text: string): Answer {
  if (YES.test(text)) return { value: true };
  return NO.test(text) ? { value: false } : { refusal: `Answer yes or no; "${echo(text)}" is neither.` };
}

function numberOf(text: string): Answer {
  const value = Number(text);
  return Number.isFinite(value) ? { value } : { refusal: `"${echo(text)}" is no number.` };
}

function withUnit(text: string, schema: FieldSchema, system: System): string | number {
  const unit = unitOf(schema, system);
  if (unit === '') return /^\d+(\.\d+)?$/.test(text) ? Number(text) : text;
  return /^[-+]?[\d.,/ ]+$/.test(text) ? `${text} ${unit}` : text;
}

/** Things one after the other, between commas; pairs of a table with a blank between their numbers. */
function listOf(text: string, schema: FieldSchema, system: System): Answer {
  const item = child(schema, 0) ?? {};
  const parts = text
    .replaceAll(/[[\]]/g, '')
    .split(/[,;](?!\d)/)
    .map((part) => part.trim());
  const items: NewValue[] = [];
  for (const part of parts.filter(Boolean)) {
    const read = item.type === 'array' ? rowOf(part, item, system) : answerOf(part, item, system);
    if ('refusal' in read) return read;
    items.push(read.value);
  }
  return { value: items };
}

function rowOf(part: string, schema: FieldSchema, system: System): Answer {
  const cells = part.split(/\s+(?:at\s+|@\s*)?(?=[-+]?\d)/);
  const columns = (Array.isArray(schema.items) ? schema.items : []).map(resolve);
  if (cells.length !== columns.length)
    return {
      refusal: `"${echo(part)}" is no pair; write them as in "${columns.map(({ examples }) => examples?.[0]).join(' ')}", with commas between the pairs.`,
    };
  return { value: cells.map((cell, index) => withUnit(cell, columns[index] ?? {}, system)) };
}

/** The unit a bare number is read in: that of an example, one of the system's own before others. */
export function unitOf({ dimension, examples = [] }: FieldSchema, system: System): string {
  if (!dimension) return '';
  const own = (dimensions[dimension] as DimensionUnits)[system];
  const units = examples.flatMap((example) => {
    const read = parseQuantity(String(example), dimension);
    return isQuantity(read) ? [read.unit] : [];
  });
  return units.find((unit) => own.includes(unit)) ?? units[0] ?? own[0] ?? '';
}
