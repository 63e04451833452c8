import { type Document, parseDocument } from 'yaml';
import { rules } from '../generated/rules.ts';
import { compose, TooLarge } from '../sheet/compose.ts';
import type { Entry, Range } from '../sheet/entry.ts';
import { endOfLine, startOfLine } from '../sheet/lines.ts';
import { child, type FieldSchema, resolve } from '../sheet/schema.ts';
import { type DimensionUnits, dimensions } from '../units/units.ts';
import { excerpt } from './excerpt.ts';

/** One thing that could be written here; `insert` is a snippet. */
export type Proposal = {
  label: string;
  kind: 'field' | 'choice' | 'value' | 'unit';
  detail: string;
  documentation: string;
  insert: string;
  replace: Range;
};

const HERE = '__here__';

/** What could be written at an offset: fields not written yet, choices, values and units. */
export function completionsAt(whole: string, wholeOffset: number, schema: FieldSchema): Proposal[] {
  const { text, before } = excerpt(whole, wholeOffset);
  const offset = wholeOffset - before;
  const inLine = placeAt(text, offset, false);
  const found = inLine && entryHere(text, inLine, schema);
  if (!found) return [];
  const place = found.parent.flow ? placeAt(text, offset, true) : inLine;
  if (!place) return [];
  const end = found.isKey ? place.wordEnd : place.valueEnd;
  const replace = { start: place.start + before, end: end + before };
  if (found.isKey) {
    const withValue = !/^\s*:/.test(text.slice(end));
    return fields(found.parent, replace, indentOf(text, offset), withValue);
  }
  const written = text.slice(place.start, offset);
  return found.entry.schema ? values(found, found.entry.schema, written, replace) : [];
}

/** Where a word begins and ends that may be a key, or a value to the end of its line or to what ends it in braces. */
type Place = { start: number; wordEnd: number; valueEnd: number; mayBeKey: boolean };

function placeAt(text: string, offset: number, inFlow: boolean): Place | undefined {
  const lineStart = startOfLine(text, offset);
  const before = text.slice(lineStart, offset);
  const rest = text.slice(offset, endOfLine(text, offset));
  if (/(^|\s)#/.test(before)) return undefined;
  const delimiter = Math.max(before.lastIndexOf('{'), before.lastIndexOf('['), before.lastIndexOf(','));
  const stretch = before.slice(delimiter + 1);
  const colon = /^.*:\s+/.exec(stretch);
  const lead = colon ?? /^[\s-]*/.exec(stretch);
  const isFlow = inFlow || delimiter >= 0;
  const value = isFlow ? /^[^,}\]#]*/.exec(rest) : /^(?:(?! #).)*/.exec(rest);
  return {
    start: lineStart + delimiter + 1 + (lead?.[0].length ?? 0),
    wordEnd: offset + (/^[\w-]*/.exec(rest)?.[0].length ?? 0),
    valueEnd: offset + (value?.[0] ?? '').trimEnd().length,
    mayBeKey: colon === null,
  };
}

type Found = { entry: Entry; parent: Entry; isKey: boolean };

/** The entry that stands at the place once something is written there. */
function entryHere(text: string, { start, wordEnd, valueEnd, mayBeKey }: Place, schema: FieldSchema) {
  const after = text.slice(wordEnd);
  const asKey = { isKey: true, text: text.slice(0, start) + (/^\s*:/.test(after) ? HERE : `${HERE}: `) + after };
  const asValue = { isKey: false, text: `${text.slice(0, start)} ${HERE}${text.slice(valueEnd)}` };
  for (const attempt of mayBeKey ? [asKey, asValue] : [asValue]) {
    const document = parseDocument(attempt.text, { merge: true, prettyErrors: false, logLevel: 'silent' });
    const found = find(composed(document, schema), undefined, attempt.isKey);
    if (found) return found;
  }
  return undefined;
}

function composed(document: Document, schema: FieldSchema): Entry | undefined {
  try {
    return compose(document, schema);
  } catch (error) {
    if (error instanceof TooLarge) return undefined;
    throw error;
  }
}

function find(entry: Entry | undefined, parent: Entry | undefined, isKey: boolean): Found | undefined {
  if (!entry) return undefined;
  const isHere = isKey ? entry.path.at(-1) === HERE && takesFields(parent?.schema) : entry.scalar === HERE;
  if (parent && isHere) return { entry, parent, isKey };
  for (const inner of entry.children) {
    const found = find(inner, entry, isKey);
    if (found) return found;
  }
  return undefined;
}

function takesFields(schema: FieldSchema | undefined): boolean {
  return schema?.properties !== undefined || typeof schema?.additionalProperties === 'object';
}

function fields(parent: Entry, replace: Range, indent: string, withValue: boolean): Proposal[] {
  if (!parent.schema) return [];
  const present = new Set(parent.children.map(({ path }) => String(path.at(-1))));
  const named = Object.keys(parent.schema.properties ?? {}).filter((name) => !present.has(name));
  const isRuleTable = typeof parent.schema.additionalProperties === 'object';
  const names = isRuleTable ? rules.map(({ id }) => id).filter((id) => !present.has(id)) : named;
  return names.flatMap((name) => {
    const schema = parent.schema && child(parent.schema, name);
    if (!schema) return [];
    const about = isRuleTable ? rules.find(({ id }) => id === name) : undefined;
    return {
      label: name,
      kind: 'field' as const,
      detail: about?.title ?? schema.title ?? '',
      documentation: about?.why ?? schema.description ?? '',
      insert: withValue ? `${name}:${fieldValue(schema, parent.flow, indent)}` : name,
      replace,
    };
  });
}

function fieldValue(schema: FieldSchema, isFlow: boolean, indent: string): string {
  if (schema.enum) return ` \${1|${schema.enum.join(',')}|}`;
  if (schema.type === 'boolean') return ` \${1|true,false|}`;
  if (schema.type === 'object') return isFlow ? ' { $1 }' : `\n${indent}  $1`;
  if (schema.type === 'array') {
    const isOfFields = !Array.isArray(schema.items) && schema.items && resolve(schema.items).type === 'object';
    return isFlow || !isOfFields ? ` [${'$1'}]` : `\n${indent}  - $1`;
  }
  const example = schema.const ?? schema.examples?.[0];
  return example === undefined ? ' $1' : ` \${1:${asScalar(example, isFlow).replaceAll('}', '\\}')}}`;
}

/** An example as YAML writes it, in quotes where it would otherwise end early. */
function asScalar(example: unknown, isFlow: boolean): string {
  const text = String(example);
  return /: | #|^[^\w.+-]/.test(text) || (isFlow && /[,[\]{}]/.test(text)) ? JSON.stringify(text) : text;
}

function values({ entry, parent }: Found, schema: FieldSchema, written: string, replace: Range): Proposal[] {
  const proposal = (label: string, kind: Proposal['kind'], detail: string, documentation = ''): Proposal => ({
    label,
    kind,
    detail,
    documentation,
    insert: label.replaceAll('$', '\\$'),
    replace,
  });
  if (schema.enum)
    return schema.enum.map((choice, index) =>
      proposal(choice, 'choice', schema.title ?? '', schema.enumDescriptions?.[index]),
    );
  if (schema.type === 'boolean')
    return ['true', 'false'].map((truth) => proposal(truth, 'value', schema.title ?? '', schema.description));
  if (schema.dimension)
    return quantities(schema, written).map(({ text, about }) => proposal(text, 'unit', about, schema.description));
  if (entry.path[0] === 'silence' && entry.path.at(-1) === 'rule')
    return rules.map(({ id, title, why }) => proposal(id, 'value', title, why));
  if (schema.const !== undefined)
    return [proposal(String(schema.const), 'value', schema.title ?? '', schema.description)];
  return (schema.examples ?? [])
    .filter((example) => typeof example !== 'object')
    .map((example) =>
      proposal(
        asScalar(example, parent.flow),
        'value',
        `example of ${schema.title?.toLowerCase()}`,
        schema.description,
      ),
    );
}

/** The number typed so far, with its tolerance where one is begun. */
const TYPED = /^\s*["']?((?:[+-]?[\d./ ]*\d[^±+]*(?:\+\s*\/\s*-|±)\s*)?[+-]?[\d./ ]*\d)/;

/** The number already typed with each unit, or the examples of the field. */
function quantities(schema: FieldSchema, written: string): { text: string; about: string }[] {
  const { dimension, examples = [] } = schema;
  const { units, title } = dimensions[dimension ?? 'ratio-number'] as DimensionUnits;
  const number = TYPED.exec(written)?.[1];
  if (number === undefined) return examples.map((example) => ({ text: String(example), about: `example, ${title}` }));
  return units.map(({ name, note }) => ({ text: `${number} ${name}`.trim(), about: note ?? title }));
}

function indentOf(text: string, offset: number): string {
  const lineStart = startOfLine(text, offset);
  const lead = /^[ ]*(- )?/.exec(text.slice(lineStart, offset))?.[0] ?? '';
  return ' '.repeat(lead.length);
}
