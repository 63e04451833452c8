import { quoted } from '../text/echo.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity } from '../units/quantity.ts';
import { childOf, type Entry, type Range, wholeRange } from './entry.ts';
import { nameOf } from './field-words.ts';
import type { Problem } from './problem.ts';
import { expectedOf } from './read-values.ts';
import { child, knownFields } from './schema.ts';
import { meant } from './words.ts';

/** A field the parent does not have, with the one that was meant. */
export function unknownField(parent: Entry, name: string, text: string): Problem | undefined {
  const entry = childOf(parent, name);
  if (!entry) return undefined;
  const [cut] = cutByComma(parent, entry);
  if (cut) return commaProblem(cut, entry, text);
  const split = separated(parent, entry, text);
  if (split) return colonProblem(split);
  const written = entry.key ?? entry.value;
  const range = written.end > written.start ? written : wholeRange(entry);
  const likely = meantField(parent, name);
  return {
    code: 'sheet/unknown-field',
    message: wordsOn(parent, name, likely),
    range,
    fixes: likely ? [{ title: `Write ${quoted(likely)}`, edits: [{ ...range, text: likely }], preferred: true }] : [],
  };
}

function wordsOn(parent: Entry, name: string, likely: string | undefined): string {
  if (!name) return 'A field has no name here; write one before the colon.';
  if (likely && isFormerName(parent, name, likely)) return `${quoted(name)} is called ${quoted(likely)} now.`;
  const hint = likely ? `; did you mean ${quoted(likely)}?` : '.';
  return `${quoted(name)} is not a field of ${nameOf(parent)}${hint}`;
}

/** Whether a field had this name in an earlier version of the format. */
export function isFormerName({ schema }: Entry, name: string, now: string): boolean {
  return (schema && child(schema, now)?.formerly?.includes(name)) === true;
}

function colonProblem({ range, line }: { range: Range; line: string }): Problem {
  return {
    code: 'sheet/unknown-field',
    message: `A colon and a space belong between a field and its value: write ${quoted(line)}.`,
    range,
    fixes: [{ title: `Write ${quoted(line)}`, edits: [{ ...range, text: line }], preferred: true }],
  };
}

/** In braces, the field whose number a comma has cut in two: `{ redline: 5,500 rpm }` reads as a field `500 rpm`. */
export function cutByComma(parent: Entry, entry: Entry): Entry[] {
  if (!parent.flow || entry.kind !== 'empty' || !/^\d/.test(String(entry.path.at(-1)))) return [];
  const before = parent.children[parent.children.indexOf(entry) - 1];
  return before?.kind === 'scalar' && before.value.end < (entry.key?.start ?? 0) ? [before] : [];
}

function commaProblem({ value, schema }: Entry, after: Entry, text: string): Problem {
  const range = { start: value.start, end: (after.key ?? after.value).end };
  const written = `${text.slice(value.start, value.end)},${after.path.at(-1)}`;
  const read = schema?.dimension && parseQuantity(written, schema.dimension, expectedOf(schema));
  const likely = read && !isQuantity(read) ? read.instead : [];
  return {
    code: 'sheet/quantity',
    message: `A comma ends a value in braces${likely.length ? `; write ${likely.map(quoted).join(' or ')}` : ''}.`,
    range,
    fixes: likely.map((one) => ({
      title: `Write ${quoted(one)}`,
      edits: [{ ...range, text: one }],
      preferred: likely.length === 1,
    })),
  };
}

/** `cylinders 8`, `cylinders:8` or `tank { vent: true }`, with the colon or the space that is lacking. */
function separated(parent: Entry, entry: Entry, text: string): { range: Range; line: string } | undefined {
  const range = { start: (entry.key ?? entry.value).start, end: wholeRange(entry).end };
  const [, field = '', value] = /^([\w-]+)(?:\s+|:|\s*(?=[{[]))(\S.*)$/.exec(text.slice(range.start, range.end)) ?? [];
  const isOneKey = entry.kind === 'empty' || /[{[]/.test(String(entry.path.at(-1)));
  if (!isOneKey || !Object.hasOwn(parent.schema?.properties ?? {}, field)) return undefined;
  return { range, line: `${field}: ${value}` };
}

/** The field of the parent that an unknown one was meant to be. */
export function fieldMeant(parent: Entry, name: string): string | undefined {
  const [, field = ''] = /^([\w-]+)[\s:{[]/.exec(name) ?? [];
  return Object.hasOwn(parent.schema?.properties ?? {}, field) ? field : meantField(parent, name);
}

/** The field of the parent, not written yet, that an unknown name stands for. */
export function meantField(parent: Entry, name: string): string | undefined {
  if (Object.hasOwn(parent.schema?.properties ?? {}, name)) return undefined;
  return meant(
    name,
    knownFields(parent.schema).filter(({ word }) => !childOf(parent, word)),
  );
}
