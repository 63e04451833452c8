import type { ErrorObject } from 'ajv';
import { childOf, type Entry, pathText } from './entry.ts';
import { missingField } from './missing-field.ts';
import type { Problem } from './problem.ts';
import type { Path } from './schema.ts';
import { cutByComma, fieldMeant, unknownField } from './unknown-field.ts';
import { outOfRange, unknownChoice, wrongFormat, wrongLength, wrongType } from './wrong-value.ts';

export type Validate = { (value: unknown): boolean; errors?: ErrorObject[] | null };

/** Most problems that are put in words; what is wrong beyond them is only kept from being used. */
const MOST_TOLD = 100;

/** The mistakes of one value that another mistake of it explains: the first of these that holds is told. */
const ORDER = ['type', 'required', 'additionalProperties', 'enum'];

/**
 * What the schema check finds, told as a tuner would say it, at the exact key or value; one problem for one mistake. Adds
 * the paths of the fields that must not be used to `invalid`, and to `unread` the fields that a misspelled one stands for.
 * Nothing is called missing where some fields are unread.
 */
export function schemaProblems(
  root: Entry,
  text: string,
  value: unknown,
  validate: Validate,
  { invalid, unread }: { invalid: Map<string, Path>; unread: Path[] },
): Problem[] {
  if (validate(value)) return [];
  const told = new Set<string>();
  const partly = new Set(unread.map(pathText));
  const problems: Problem[] = [];
  for (const error of (validate.errors ?? []).toSorted(byOrder)) {
    const entry = entryOfPointer(root, error.instancePath);
    if (!entry) continue;
    for (const { path } of unusable(error, entry)) invalid.set(pathText(path), path);
    const { additionalProperty } = namesIn(error);
    const unknown = error.keyword === 'additionalProperties' && String(additionalProperty);
    const likely = unknown && problems.length < MOST_TOLD && fieldMeant(entry, unknown);
    if (likely) unread.push([...entry.path, likely]);
    if (problems.length >= MOST_TOLD) continue;
    if (error.keyword === 'required' && partly.has(pathText(entry.path))) continue;
    const problem = problemOf(error, entry, text);
    const mistake = mistakeOf(error);
    if (problem && !told.has(mistake)) problems.push(problem);
    told.add(mistake);
  }
  return problems.toSorted((one, other) => one.range.start - other.range.start);
}

function byOrder(one: ErrorObject, other: ErrorObject): number {
  return ORDER.indexOf(one.keyword) - ORDER.indexOf(other.keyword);
}

/** What makes two errors the same mistake: the field they are about. */
function mistakeOf(error: ErrorObject): string {
  const { additionalProperty, missingProperty } = namesIn(error);
  const { instancePath } = error;
  const field = additionalProperty ?? missingProperty;
  return field === undefined ? instancePath : `${instancePath}/${field}`;
}

/** The fields a schema error names. */
function namesIn({ params }: ErrorObject): { additionalProperty?: string; missingProperty?: string } {
  return params;
}

function entryOfPointer(root: Entry, pointer: string): Entry | undefined {
  let entry: Entry | undefined = root;
  for (const step of pointer.split('/').slice(1)) {
    const name = step.replaceAll('~1', '/').replaceAll('~0', '~');
    entry = entry?.kind === 'list' ? entry.children[Number(name)] : entry && childOf(entry, name);
  }
  return entry;
}

/** The entries whose values must not be used because of the error. */
function unusable(error: ErrorObject, entry: Entry): Entry[] {
  if (error.keyword === 'required') return [];
  if (error.keyword !== 'additionalProperties') return [entry];
  const field = childOf(entry, String(namesIn(error).additionalProperty));
  return field ? [field, ...cutByComma(entry, field)] : [];
}

function problemOf(error: ErrorObject, entry: Entry, text: string): Problem | undefined {
  const { additionalProperty, missingProperty } = namesIn(error);
  switch (error.keyword) {
    case 'additionalProperties':
      return unknownField(entry, String(additionalProperty), text);
    case 'required':
      return missingField(entry, String(missingProperty), text);
    case 'enum':
      return unknownChoice(entry, text);
    case 'minimum':
    case 'maximum':
      return pathText(entry.path) === 'format' ? wrongFormat(entry, text) : outOfRange(entry, text);
    case 'minItems':
    case 'maxItems':
    case 'additionalItems':
      return wrongLength(entry);
    default:
      return wrongType(entry, text);
  }
}
