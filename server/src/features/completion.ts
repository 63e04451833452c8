import { type Document, parseDocument } from 'yaml';
import { rules } from '../generated/rules.ts';
import { compose, TooLarge } from '../sheet/compose.ts';
import type { Entry, Range } from '../sheet/entry.ts';
import { startOfLine } from '../sheet/lines.ts';
import { child, type FieldSchema, resolve } from '../sheet/schema.ts';
import { type DimensionUnits, dimensions } from '../sheet/units.ts';

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
export function completionsAt(text: string, offset: number, schema: FieldSchema): Proposal[] {
  const place = placeAt(text, offset);
  if (!place) return [];
  const found = entryHere(text, place, schema);
  if (!found) return [];
  const replace = { start: place.start, end: place.end };
  const written = text.slice(place.start, offset);
  if (place.isKey && found.entry.key)
    return fields(found.parent, replace, place.isFlow, indentOf(text, offset), !/^\s*:/.test(text.slice(place.end)));
  if (!found.entry.schema) return [];
  return values(found.entry, found.entry.schema, written, replace);
}

type Place = { start: number; end: number; isKey: boolean; isFlow: boolean };

/** The word at the offset: a key, or a value after a colon, in lines as well as in braces and brackets. */
function placeAt(text: string, offset: number): Place | undefined {
  const lineStart = startOfLine(text, offset);
  const before = text.slice(lineStart, offset);
  const rest = text.slice(offset).split(/\r?\n/, 1)[0] ?? '';
  if (/(^|\s)#/.test(before)) return undefined;
  const delimiter = Math.max(before.lastIndexOf('{'), before.lastIndexOf('['), before.lastIndexOf(','));
  const colon = /^.*:\s+/.exec(before.slice(delimiter + 1));
  const isFlow = delimiter >= 0;
  if (colon) {
    const start = lineStart + delimiter + 1 + colon[0].length;
    const tail = isFlow ? /^[^,}\]#]*/.exec(rest)?.[0] : /^(?:(?! #).)*/.exec(rest)?.[0];
    return { start, end: offset + (tail ?? '').trimEnd().length, isKey: false, isFlow };
  }
  const lead = /^[\s-]*/.exec(before.slice(delimiter + 1))?.[0] ?? '';
  const start = lineStart + delimiter + 1 + lead.length;
  const word = /^[\w-]*/.exec(rest)?.[0] ?? '';
  return { start, end: offset + word.length, isKey: true, isFlow };
}

/** The entry that stands at the place once something is written there. */
function entryHere(text: string, { start, end, isKey }: Place, schema: FieldSchema) {
  const after = text.slice(end);
  const asKey = /^\s*:/.test(after) ? HERE : `${HERE}: `;
  const asValue = isKey ? HERE : ` ${HERE}`;
  for (const inserted of isKey ? [asKey, asValue] : [asValue]) {
    const document = parseDocument(text.slice(0, start) + inserted + after, {
      merge: true,
      prettyErrors: false,
      logLevel: 'silent',
    });
    const found = find(composed(document, schema), undefined);
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

function find(entry: Entry | undefined, parent: Entry | undefined): { entry: Entry; parent: Entry } | undefined {
  if (!entry) return undefined;
  if (parent && (entry.path.at(-1) === HERE || String(entry.scalar).includes(HERE))) return { entry, parent };
  for (const inner of entry.children) {
    const found = find(inner, entry);
    if (found) return found;
  }
  return undefined;
}

function fields(parent: Entry, replace: Range, isFlow: boolean, indent: string, withValue: boolean): Proposal[] {
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
      insert: withValue ? `${name}:${fieldValue(schema, isFlow, indent)}` : name,
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
  return example === undefined ? ' $1' : ` \${1:${String(example).replaceAll('}', '\\}')}}`;
}

function values(entry: Entry, schema: FieldSchema, written: string, replace: Range): Proposal[] {
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
      proposal(String(example), 'value', `example of ${schema.title?.toLowerCase()}`, schema.description),
    );
}

/** The number already typed with each unit, or the examples of the field. */
function quantities(schema: FieldSchema, written: string): { text: string; about: string }[] {
  const { dimension, examples = [] } = schema;
  const { units, title } = dimensions[dimension ?? 'ratio-number'] as DimensionUnits;
  const number = /^\s*([+-]?[\d./ ]*\d)/.exec(written)?.[1];
  if (number === undefined) return examples.map((example) => ({ text: String(example), about: `example, ${title}` }));
  return units.map(({ name, note }) => ({ text: `${number} ${name}`.trim(), about: note ?? title }));
}

function indentOf(text: string, offset: number): string {
  const lineStart = startOfLine(text, offset);
  const lead = /^[ ]*(- )?/.exec(text.slice(lineStart, offset))?.[0] ?? '';
  return ' '.repeat(lead.length);
}
