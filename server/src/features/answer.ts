import type { NewValue } from '../sheet/edit.ts';
import { child, type FieldSchema, knownChoices, resolve } from '../sheet/schema.ts';
import { meant } from '../sheet/words.ts';
import { echo } from '../text/echo.ts';
import { type Units, unitsOf } from '../units/format.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity } from '../units/quantity.ts';

/** What an answer says, or why it cannot be what is asked for. */
export type Answer = { value: NewValue } | { refusal: string };

const YES = /^(y|yes|true|yep|yeah)$/i;
const NO = /^(n|no|false|nope)$/i;

/**
 * An answer as it is typed, as the value a field takes: a choice by its name, its beginning or another name of the trade, or nearly; `yes`
 * and `no`; a number without its unit in the unit that was shown. Whether the field allows the value, reading the text
 * with it tells.
 */
export function answerOf(typed: string, schema: FieldSchema | undefined, units: Units): Answer {
  const text = typed.trim();
  if (!schema || text === '') return { refusal: 'Type an answer, or say that it is not known yet.' };
  if (schema.enum) return choiceOf(text, schema);
  if (schema.type === 'boolean') return truthOf(text);
  if (schema.dimension) return { value: withUnit(text, schema, units) };
  if (schema.type === 'array') return listOf(text, schema, units);
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

function withUnit(text: string, schema: FieldSchema, units: Units): string | number {
  const unit = unitOf(schema, units);
  if (unit === '') return /^\d+(\.\d+)?$/.test(text) ? Number(text) : text;
  return /^[-+]?[\d.,/ ]+$/.test(text) ? `${text} ${unit}` : text;
}

/** Things one after the other, between commas; pairs of a table with a blank between their numbers. */
function listOf(text: string, schema: FieldSchema, units: Units): Answer {
  const item = child(schema, 0) ?? {};
  const parts = text
    .replaceAll(/[[\]]/g, '')
    .split(/[,;](?!\d)/)
    .map((part) => part.trim());
  const items: NewValue[] = [];
  for (const part of parts.filter(Boolean)) {
    const read = item.type === 'array' ? rowOf(part, item, units) : answerOf(part, item, units);
    if ('refusal' in read) return read;
    items.push(read.value);
  }
  return { value: items };
}

function rowOf(part: string, schema: FieldSchema, units: Units): Answer {
  const cells = part.split(/\s+(?:at\s+|@\s*)?(?=[-+]?\d)/);
  const columns = (Array.isArray(schema.items) ? schema.items : []).map(resolve);
  if (cells.length !== columns.length)
    return {
      refusal: `"${echo(part)}" is no pair; write them as in "${columns.map(({ examples }) => examples?.[0]).join(' ')}", with commas between the pairs.`,
    };
  return { value: cells.map((cell, index) => withUnit(cell, columns[index] ?? {}, units)) };
}

/** The unit a bare number is read in: that of an example, one of those values are shown in before others. */
export function unitOf({ dimension, examples = [] }: FieldSchema, units: Units): string {
  if (!dimension) return '';
  const own = unitsOf(dimension, units);
  const exemplary = examples.flatMap((example) => {
    const read = parseQuantity(String(example), dimension);
    return isQuantity(read) ? [read.unit] : [];
  });
  return exemplary.find((unit) => own.includes(unit)) ?? (own.length === 1 ? own[0] : exemplary[0]) ?? own[0] ?? '';
}
