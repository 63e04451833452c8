import { rules } from '../../generated/rules.ts';
import { fieldAt } from '../../sheet/path.ts';
import { child, type FieldSchema, resolve } from '../../sheet/schema.ts';
import type { Ranks } from '../questions.ts';
import type { Place } from './place.ts';
import type { Proposal } from './proposal.ts';

/** The fields that are not written yet, those that are asked for first before the others, each left empty for its value. */
export function fieldsAt({ parent, hasColon, column }: Place, text: string, ranks: Ranks): Proposal[] {
  const { schema } = parent;
  if (!schema) return [];
  const inner = parent.flow ? undefined : `\n${' '.repeat(column + indentStep(text))}`;
  const rankOf = ({ name }: Name) => ranks.get(fieldAt([...parent.path, name])) ?? Number.MAX_SAFE_INTEGER;
  const names = namesFor(parent.schema).toSorted((one, other) => rankOf(one) - rankOf(other));
  return names.flatMap(({ name, title, why }) => {
    if (parent.children.some(({ path }) => path.at(-1) === name)) return [];
    const field = child(schema, name);
    if (!field) return [];
    return {
      label: name,
      kind: 'field' as const,
      detail: title ?? field.title ?? '',
      documentation: why ?? described(field),
      ...(hasColon ? { insert: name } : withValue(`${name}:`, field, inner)),
    };
  });
}

type Name = { name: string; title?: string; why?: string };

/** The names a mapping takes: its fields, or the rules where it is the table of them. */
function namesFor(schema: FieldSchema | undefined): Name[] {
  if (typeof schema?.additionalProperties === 'object')
    return rules.map(({ id, title, why }) => ({ name: id, title, why }));
  return Object.keys(schema?.properties ?? {}).map((name) => ({ name }));
}

/** What a field is, and its choices or examples. */
function described({ description = '', examples = [], type, enum: choices }: FieldSchema): string {
  const quoted = (values: readonly unknown[]) => values.map((value) => `\`${value}\``).join(', ');
  if (choices) return `${description} One of ${quoted(choices)}.`;
  if (type === 'boolean') return `${description} One of ${quoted([true, false])}.`;
  const isShown = examples.length > 0 && examples.every((example) => typeof example !== 'object');
  return isShown ? `${description} Such as ${quoted(examples)}.` : description;
}

/** A key with room for its value: on lines of its own after `inner`, or in brackets within braces. */
function withValue(
  key: string,
  { type, items }: FieldSchema,
  inner: string | undefined,
): Pick<Proposal, 'insert' | 'cursor'> {
  const item = type === 'array' && items && !Array.isArray(items) ? resolve(items).type : undefined;
  if (inner && type === 'object') return { insert: key + inner };
  if (inner && item === 'object') return { insert: `${key}${inner}- ` };
  const [open, close] =
    type === 'object' ? ['{ ', ' }'] : item === 'array' ? ['[[', ']]'] : item ? ['[', ']'] : ['', ''];
  const head = `${key} ${open}`;
  return close ? { insert: head + close, cursor: head.length } : { insert: head };
}

/** How many blanks the text indents by. */
function indentStep(text: string): number {
  const indent = /^( {1,8})[^\s#]/m.exec(text)?.[1];
  return indent ? indent.length : 2;
}
