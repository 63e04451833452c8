import type { ErrorObject } from 'ajv';
import { closest, distance } from 'fastest-levenshtein';
import { type Entry, pathText } from './entry.ts';
import type { Problem } from './problem.ts';
import { dimensions } from './units.ts';

export type Validate = { (value: unknown): boolean; errors?: ErrorObject[] | null };

/**
 * What the schema check finds, told as a tuner would say it, at the exact key or value; one problem for one mistake. Adds
 * the paths of the fields that must not be used to `invalid`.
 */
export function schemaProblems(root: Entry, value: unknown, validate: Validate, invalid: Set<string>): Problem[] {
  if (validate(value)) return [];
  const told = new Set<string>();
  const problems: Problem[] = [];
  for (const error of validate.errors ?? []) {
    const entry = entryOfPointer(root, error.instancePath);
    const problem = entry && problemOf(error, entry, invalid);
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
    entry = entry?.children.find(({ path }) => String(path.at(-1)) === name);
  }
  return entry;
}

function problemOf(error: ErrorObject, entry: Entry, invalid: Set<string>): Problem | undefined {
  switch (error.keyword) {
    case 'additionalProperties':
      return unknownField(entry, String(error.params.additionalProperty), invalid);
    case 'required':
      return missingField(entry, String(error.params.missingProperty));
    case 'enum':
      invalid.add(pathText(entry.path));
      return unknownChoice(entry);
    case 'const':
      invalid.add(pathText(entry.path));
      return wrongFormat(entry);
    case 'minimum':
    case 'maximum':
      invalid.add(pathText(entry.path));
      return outOfRange(entry);
    case 'minItems':
    case 'maxItems':
    case 'additionalItems':
      invalid.add(pathText(entry.path));
      return wrongLength(entry);
    default:
      invalid.add(pathText(entry.path));
      return wrongType(entry);
  }
}

function unknownField(parent: Entry, name: string, invalid: Set<string>): Problem | undefined {
  const entry = parent.children.find(({ path }) => path.at(-1) === name);
  if (!entry) return undefined;
  invalid.add(pathText(entry.path));
  const present = new Set(parent.children.map(({ path }) => String(path.at(-1))));
  const free = Object.keys(parent.schema?.properties ?? {}).filter((known) => !present.has(known));
  const meant = near(name, free);
  const where = parent.path.length ? `\`${parent.path.at(-1)}\`` : 'a build sheet';
  const range = entry.key ?? entry.value;
  return {
    code: 'sheet/unknown-field',
    message: `\`${name}\` is not a field of ${where}${meant ? `; did you mean \`${meant}\`?` : '.'}`,
    range,
    fixes: meant ? [{ title: `Write \`${meant}\``, edits: [{ ...range, text: meant }], preferred: true }] : [],
  };
}

function missingField(entry: Entry, name: string): Problem {
  const isRoot = entry.path.length === 0;
  const place = isRoot ? { start: 0, end: 0 } : (entry.key ?? entry.value);
  const range = isRoot ? { start: 0, end: Math.max(entry.children[0]?.key?.end ?? entry.value.end, 0) } : place;
  const where = isRoot ? 'This sheet' : `\`${entry.path.at(-1)}\``;
  return {
    code: 'sheet/missing-field',
    message: `${where} needs a field \`${name}\`.`,
    range,
    fixes:
      isRoot && name === 'format'
        ? [{ title: 'Add `format: 1`', edits: [{ start: 0, end: 0, text: 'format: 1\n' }], preferred: true }]
        : [],
  };
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
    ? `a pair of ${items.map((item) => item.title?.toLowerCase()).join(' and ')}`
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

function wrongType(entry: Entry): Problem | undefined {
  const { schema } = entry;
  if (entry.kind === 'empty') {
    return {
      code: 'sheet/wrong-type',
      message: `${nameOf(entry, true)} is empty; it takes ${kindWanted(entry)}.`,
      range: entry.key ?? entry.value,
      fixes: [],
    };
  }
  const truth = schema?.type === 'boolean' ? truthMeant(String(entry.scalar)) : undefined;
  const number = schema?.type === 'integer' || schema?.type === 'number' ? numberMeant(entry) : undefined;
  const meant = truth ?? number;
  return {
    code: 'sheet/wrong-type',
    message: `${nameOf(entry, true)} takes ${kindWanted(entry)}${meant ? `; write \`${meant}\`.` : '.'}`,
    range: entry.kind === 'scalar' ? entry.value : (entry.key ?? entry.value),
    fixes: meant ? [{ title: `Write \`${meant}\``, edits: [{ ...entry.value, text: meant }], preferred: true }] : [],
  };
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
      return 'a list';
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

function near(written: string, known: string[]): string | undefined {
  if (known.length === 0) return undefined;
  const best = closest(written.toLowerCase(), known);
  return distance(written.toLowerCase(), best) <= Math.max(1, Math.floor(written.length / 3)) ? best : undefined;
}
