import { quoted } from '../text/echo.ts';
import { startOfLine } from '../text/lines.ts';
import { type Entry, isUnknown, writtenOf } from './entry.ts';
import { kindWanted, nameOf, pairOf } from './field-words.ts';
import type { Problem } from './problem.ts';
import { child, type FieldSchema, knownChoices, knownFields } from './schema.ts';
import { meant } from './words.ts';

function problem(code: Problem['code'], message: string, range: Problem['range'], likely?: string): Problem {
  const fix = likely !== undefined && {
    title: `Write ${quoted(likely)}`,
    edits: [{ ...range, text: likely }],
    preferred: true,
  };
  return { code, message, range, fixes: fix ? [fix] : [] };
}

/** Where to mark a value: itself if it stands in a line, else its key. */
function mark(entry: Entry): Problem['range'] {
  const isThere = entry.value.end > entry.value.start;
  return (entry.kind === 'scalar' && isThere) || !entry.key ? entry.value : entry.key;
}

export function unknownChoice(entry: Entry, text: string): Problem {
  const known = entry.schema ? knownChoices(entry.schema) : [];
  const written = writtenOf(entry, text);
  const likely = meant(written, known);
  const hint = likely ? `; did you mean "${likely}"?` : '.';
  const list = known.map(({ word }) => `"${word}"`).join(', ');
  const message = `${quoted(written)} is not a choice for ${nameOf(entry)}${hint} Choices: ${list}.`;
  return problem('sheet/unknown-choice', message, mark(entry), likely);
}

export function wrongFormat(entry: Entry, text: string): Problem {
  const { minimum, maximum } = entry.schema ?? {};
  const written = quoted(writtenOf(entry, text));
  return problem(
    'sheet/old-format',
    `This tool reads format ${minimum} and ${maximum}; ${written} is another version.`,
    mark(entry),
  );
}

export function outOfRange(entry: Entry, text: string): Problem {
  const { minimum, maximum } = entry.schema ?? {};
  const range =
    maximum === undefined
      ? `is ${minimum} or more`
      : minimum === undefined
        ? `is ${maximum} or less`
        : `runs from ${minimum} to ${maximum}`;
  const message = `${quoted(writtenOf(entry, text))} is out of range: ${nameOf(entry)} ${range}.`;
  return problem('sheet/out-of-range', message, mark(entry));
}

export function wrongLength(entry: Entry): Problem {
  const { minItems, maxItems, items } = entry.schema ?? {};
  const wanted = Array.isArray(items)
    ? pairOf(items)
    : maxItems === undefined
      ? `at least ${minItems} items`
      : `${minItems ?? 0} to ${maxItems} items`;
  return problem('sheet/wrong-type', `${nameOf(entry, true)} takes ${wanted}.`, entry.value);
}

export function wrongType(entry: Entry, text: string): Problem {
  if (isUnknown(entry) || entry.scalar === '') {
    const message = `${nameOf(entry, true)} is empty; it takes ${kindWanted(entry)}.`;
    return problem('sheet/wrong-type', message, mark(entry));
  }
  const likely = entry.kind === 'scalar' ? valueMeant(entry, text) : undefined;
  const field = entry.kind === 'scalar' && !likely && fieldOnItsLine(entry, text);
  if (field) {
    const message = `${quoted(writtenOf(entry, text))} lacks a colon: write "${field}:".`;
    return problem('sheet/wrong-type', message, entry.value, `${field}:`);
  }
  const message = `${nameOf(entry, true)} takes ${kindWanted(entry)}${likely ? `; write ${quoted(likely)}.` : '.'}`;
  return problem('sheet/wrong-type', message, mark(entry), likely);
}

/** What a scalar of the wrong type was meant to be. */
function valueMeant(entry: Entry, text: string): string | undefined {
  const { schema, scalar } = entry;
  const written = text.slice(entry.value.start, entry.value.end);
  switch (schema?.type) {
    case 'boolean':
      return truthMeant(writtenOf(entry, text));
    case 'integer':
    case 'number':
      return numberMeant(entry);
    case 'string':
      return typeof scalar === 'string' || /["\n\r]/.test(written) ? undefined : `"${written}"`;
    case 'object':
      return fieldMeant(schema, writtenOf(entry, text));
    default:
      return undefined;
  }
}

/** `fuel: e85` for a field that takes fields, one of which has that choice, or `induction:roots` without its space. */
function fieldMeant(schema: FieldSchema, written: string): string | undefined {
  const [, name = '', value] = /^([\w-]+)(?::|\s+)([^\s:].*)$/.exec(written) ?? [];
  if (Object.hasOwn(schema.properties ?? {}, name)) return `{ ${name}: ${value} }`;
  const fitting = knownFields(schema).flatMap(({ word }) => {
    const field = child(schema, word);
    const choice = field?.enum && meant(written, knownChoices(field));
    return choice ? [{ word, choice, isSame: choice === written }] : [];
  });
  const exact = fitting.filter(({ isSame }) => isSame);
  const [only, other] = exact.length > 0 ? exact : fitting;
  return only && !other ? `{ ${only.word}: ${only.choice} }` : undefined;
}

/** `engine` alone on a line where a field may stand. */
function fieldOnItsLine({ schema, value }: Entry, text: string): string | undefined {
  const lead = text.slice(startOfLine(text, value.start), value.start);
  if (schema?.type !== 'object' || !/^\s*(?:- +)*$/.test(lead)) return undefined;
  return meant(text.slice(value.start, value.end), knownFields(schema));
}

function truthMeant(written: string): string | undefined {
  if (/^(yes|y|on|1)$/i.test(written)) return 'true';
  return /^(no|n|off|0)$/i.test(written) ? 'false' : undefined;
}

function numberMeant({ quote, scalar }: Entry): string | undefined {
  return quote && scalar !== '' && Number.isFinite(Number(scalar)) ? String(scalar) : undefined;
}
