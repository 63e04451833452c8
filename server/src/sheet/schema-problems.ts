import type { ErrorObject } from 'ajv';
import { closest, distance } from 'fastest-levenshtein';
import { quoted } from '../text/echo.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity } from '../units/quantity.ts';
import { dimensions } from '../units/units.ts';
import { type Entry, pathText, type Range, wholeRange } from './entry.ts';
import type { Problem } from './problem.ts';
import { expectedOf } from './read-values.ts';
import { child, type FieldSchema } from './schema.ts';

export type Validate = { (value: unknown): boolean; errors?: ErrorObject[] | null };

/** Most problems that are put in words; what is wrong beyond them is only kept from being used. */
const MOST_TOLD = 100;

/**
 * What the schema check finds, told as a tuner would say it, at the exact key or value; one problem for one mistake. Adds
 * the paths of the fields that must not be used to `invalid`.
 */
export function schemaProblems(
  root: Entry,
  text: string,
  value: unknown,
  validate: Validate,
  invalid: Set<string>,
): Problem[] {
  if (validate(value)) return [];
  const told = new Set<string>();
  const problems: Problem[] = [];
  for (const error of validate.errors ?? []) {
    const entry = entryOfPointer(root, error.instancePath);
    if (!entry) continue;
    for (const { path } of unusable(error, entry)) invalid.add(pathText(path));
    if (problems.length >= MOST_TOLD) continue;
    const problem = problemOf(error, entry, text);
    if (!problem) continue;
    const place = `${problem.range.start}:${problem.range.end}`;
    if (!told.has(place)) problems.push(problem);
    told.add(place);
  }
  return problems;
}

function entryOfPointer(root: Entry, pointer: string): Entry | undefined {
  let entry: Entry | undefined = root;
  for (const step of pointer.split('/').slice(1)) {
    const name = step.replaceAll('~1', '/').replaceAll('~0', '~');
    entry = entry?.kind === 'list' ? entry.children[Number(name)] : entry && childOf(entry, name);
  }
  return entry;
}

/** The field of that name; of one written twice the last, as the schema check sees it. */
function childOf(parent: Entry, name: string): Entry | undefined {
  return parent.children.findLast(({ path }) => path.at(-1) === name);
}

/** The entries whose values must not be used because of the error. */
function unusable({ keyword, params }: ErrorObject, entry: Entry): Entry[] {
  if (keyword === 'required') return [];
  if (keyword !== 'additionalProperties') return [entry];
  const field = childOf(entry, String(params.additionalProperty));
  return field ? [field, ...cutByComma(entry, field)] : [];
}

function problemOf({ keyword, params }: ErrorObject, entry: Entry, text: string): Problem | undefined {
  switch (keyword) {
    case 'additionalProperties':
      return unknownField(entry, String(params.additionalProperty), text);
    case 'required':
      return missingField(entry, String(params.missingProperty), text);
    case 'enum':
      return unknownChoice(entry);
    case 'const':
      return wrongFormat(entry);
    case 'minimum':
    case 'maximum':
      return outOfRange(entry);
    case 'minItems':
    case 'maxItems':
    case 'additionalItems':
      return wrongLength(entry);
    default:
      return wrongType(entry, text);
  }
}

function unknownField(parent: Entry, name: string, text: string): Problem | undefined {
  const entry = childOf(parent, name);
  if (!entry) return undefined;
  const [cut] = cutByComma(parent, entry);
  if (cut) return commaProblem(cut, entry, text);
  const written = entry.key ?? entry.value;
  const range = written.end > written.start ? written : wholeRange(entry);
  const field = entry.kind === 'empty' ? withoutColon(parent, name) : undefined;
  const meant = field ?? meantField(parent, name);
  const hint = field ? `; write \`${field}\`.` : meant ? `; did you mean \`${meant}\`?` : '.';
  return {
    code: 'sheet/unknown-field',
    message: `\`${name}\` is not a field of ${nameOf(parent)}${hint}`,
    range,
    fixes: meant ? [{ title: `Write \`${meant}\``, edits: [{ ...range, text: meant }], preferred: true }] : [],
  };
}

/** In braces, the field whose number a comma has cut in two: `{ redline: 5,500 rpm }` reads as a field `500 rpm`. */
function cutByComma(parent: Entry, entry: Entry): Entry[] {
  const before = parent.children[parent.children.indexOf(entry) - 1];
  const isCut = parent.flow && entry.kind === 'empty' && /^\d/.test(String(entry.path.at(-1)));
  return isCut && before?.kind === 'scalar' && before.value.end < (entry.key?.start ?? 0) ? [before] : [];
}

function commaProblem({ value, schema }: Entry, after: Entry, text: string): Problem {
  const range = { start: value.start, end: (after.key ?? after.value).end };
  const written = `${text.slice(value.start, value.end)},${after.path.at(-1)}`;
  const read = schema?.dimension && parseQuantity(written, schema.dimension, expectedOf(schema));
  const meant = read && !isQuantity(read) ? read.instead : [];
  return {
    code: 'sheet/quantity',
    message: `A comma ends a value in braces${meant.length ? `; write ${meant.map(quoted).join(' or ')}` : ''}.`,
    range,
    fixes: meant.map((one) => ({
      title: `Write ${quoted(one)}`,
      edits: [{ ...range, text: one }],
      preferred: meant.length === 1,
    })),
  };
}

/** `cylinders 8`, with the colon it lacks. */
function withoutColon({ schema }: Entry, name: string): string | undefined {
  const [, field = '', value] = /^([\w-]+)\s+(.+)$/.exec(name) ?? [];
  return Object.hasOwn(schema?.properties ?? {}, field) ? `${field}: ${value}` : undefined;
}

/** The field of the parent, not written yet, that an unknown name is nearest to. */
function meantField(parent: Entry, name: string): string | undefined {
  const known = parent.schema?.properties ?? {};
  const free = Object.keys(known).filter((field) => !childOf(parent, field));
  return Object.hasOwn(known, name) ? undefined : near(name, free);
}

function missingField(entry: Entry, name: string, text: string): Problem | undefined {
  if (entry.children.some(({ path }) => meantField(entry, String(path.at(-1))) === name)) return undefined;
  const first = entry.children.find(({ key, inherited }) => key && !inherited)?.key;
  return {
    code: 'sheet/missing-field',
    message: `${entry.path.length === 0 ? 'This sheet' : nameOf(entry, true)} needs a field \`${name}\`.`,
    range: entry.key ?? first ?? { start: entry.value.start, end: entry.value.end },
    fixes: name === 'format' ? [formatFix(entry, first, text)] : [],
  };
}

/** Writes the version of the format before the first field. */
function formatFix({ flow }: Entry, first: Range | undefined, text: string): Problem['fixes'][number] {
  const eol = /\r?\n/.exec(text)?.[0] ?? '\n';
  const at = first?.start ?? text.length;
  const indent = /[ ]*$/.exec(text.slice(0, at))?.[0] ?? '';
  const lead = first || text === '' || /[\n\ufeff]$/.test(text) ? '' : eol;
  const tail = flow ? ', ' : eol + (first ? indent : '');
  const edit = { start: at, end: at, text: `${lead}format: 1${tail}` };
  return { title: 'Add `format: 1`', edits: [edit], preferred: true };
}

function unknownChoice(entry: Entry): Problem {
  const choices = entry.schema?.enum ?? [];
  const written = String(entry.scalar);
  const meant = near(written, choices);
  const list = choices.map((choice) => `\`${choice}\``).join(', ');
  return {
    code: 'sheet/unknown-choice',
    message:
      `\`${written}\` is not a choice for ${nameOf(entry)}${meant ? `; did you mean \`${meant}\`?` : ''} Choices: ${list}.`.replace(
        /([^?.]) Choices/,
        '$1. Choices',
      ),
    range: entry.value,
    fixes: meant ? [{ title: `Write \`${meant}\``, edits: [{ ...entry.value, text: meant }], preferred: true }] : [],
  };
}

function wrongFormat(entry: Entry): Problem {
  const known = entry.schema?.const;
  return {
    code: 'sheet/old-format',
    message: `This tool reads format ${known}; \`${entry.scalar}\` is another version.`,
    range: entry.value.end > entry.value.start ? entry.value : (entry.key ?? entry.value),
    fixes: [],
  };
}

function outOfRange(entry: Entry): Problem {
  const { minimum, maximum } = entry.schema ?? {};
  return {
    code: 'sheet/out-of-range',
    message: `\`${entry.scalar}\` is out of range: ${nameOf(entry)} runs from ${minimum} to ${maximum}.`,
    range: entry.value,
    fixes: [],
  };
}

function wrongLength(entry: Entry): Problem {
  const { minItems, maxItems, items } = entry.schema ?? {};
  const wanted = Array.isArray(items)
    ? pairOf(items)
    : maxItems === undefined
      ? `at least ${minItems} items`
      : `${minItems} to ${maxItems} items`;
  return {
    code: 'sheet/wrong-type',
    message: `${nameOf(entry, true)} takes ${wanted}.`,
    range: entry.value,
    fixes: [],
  };
}

function pairOf(items: readonly FieldSchema[]): string {
  const example = items.map(({ examples }) => examples?.[0]).join(', ');
  return `a pair of ${items.map((item) => item.title?.toLowerCase()).join(' and ')}, such as \`[${example}]\``;
}

function wrongType(entry: Entry, text: string): Problem | undefined {
  if (entry.kind === 'empty' || entry.scalar === '') {
    return {
      code: 'sheet/wrong-type',
      message: `${nameOf(entry, true)} is empty; it takes ${kindWanted(entry)}.`,
      range: entry.kind === 'empty' ? (entry.key ?? entry.value) : entry.value,
      fixes: [],
    };
  }
  const meant = entry.kind === 'scalar' ? valueMeant(entry, text.slice(entry.value.start, entry.value.end)) : undefined;
  return {
    code: 'sheet/wrong-type',
    message: `${nameOf(entry, true)} takes ${kindWanted(entry)}${meant ? `; write \`${meant}\`.` : '.'}`,
    range: entry.kind === 'scalar' ? entry.value : (entry.key ?? entry.value),
    fixes: meant ? [{ title: `Write \`${meant}\``, edits: [{ ...entry.value, text: meant }], preferred: true }] : [],
  };
}

/** What a scalar of the wrong type was meant to be. */
function valueMeant(entry: Entry, written: string): string | undefined {
  const { schema, scalar } = entry;
  switch (schema?.type) {
    case 'boolean':
      return truthMeant(String(scalar));
    case 'integer':
    case 'number':
      return numberMeant(entry);
    case 'string':
      return typeof scalar === 'string' || written.includes('"') ? undefined : `"${written}"`;
    case 'object':
      return fieldMeant(schema, scalar);
    default:
      return undefined;
  }
}

/** `fuel: e85` for a field that takes fields, one of which has that choice: `fuel: { grade: e85 }`. */
function fieldMeant(schema: FieldSchema, scalar: unknown): string | undefined {
  const names = Object.keys(schema.properties ?? {});
  const fitting = names.filter((name) => child(schema, name)?.enum?.includes(String(scalar)));
  return fitting.length === 1 ? `{ ${fitting[0]}: ${scalar} }` : undefined;
}

function truthMeant(written: string): string | undefined {
  if (/^(yes|y|on|1)$/i.test(written)) return 'true';
  return /^(no|n|off|0)$/i.test(written) ? 'false' : undefined;
}

function numberMeant({ quote, scalar }: Entry): string | undefined {
  return quote && scalar !== '' && Number.isFinite(Number(scalar)) ? String(scalar) : undefined;
}

function kindWanted({ schema }: Entry): string {
  if (schema?.dimension)
    return `a quantity of ${dimensions[schema.dimension].title}, such as \`${schema.examples?.[0]}\``;
  if (schema?.enum) return `one of ${schema.enum.map((choice) => `\`${choice}\``).join(', ')}`;
  switch (schema?.type) {
    case 'object':
      return `fields of its own, such as ${Object.keys(schema.properties ?? {})
        .slice(0, 3)
        .map((name) => `\`${name}\``)
        .join(', ')}`;
    case 'array':
      return Array.isArray(schema.items) ? pairOf(schema.items) : 'a list';
    case 'boolean':
      return '`true` or `false`';
    case 'integer':
      return `a whole number, such as \`${schema.examples?.[0]}\``;
    case 'number':
      return `a number, such as \`${schema.examples?.[0]}\``;
    default:
      return `a text, such as \`${schema?.examples?.[0] ?? '...'}\``;
  }
}

function nameOf({ path, schema }: Entry, first = false): string {
  const step = path.findLast((part) => typeof part === 'string');
  const isItem = typeof path.at(-1) === 'number';
  if (path.length === 0) return first ? 'A build sheet' : 'a build sheet';
  return isItem && schema?.title ? `${first ? 'An item' : 'an item'} of \`${step}\`` : `\`${step}\``;
}

/** The known word that is probably meant by a written one: no more than a third of its letters differ. */
export function near(written: string, known: string[]): string | undefined {
  if (known.length === 0) return undefined;
  const best = closest(written.toLowerCase(), known);
  return distance(written.toLowerCase(), best) <= Math.max(1, Math.floor(written.length / 3)) ? best : undefined;
}
