import type { Checked } from '../checking/checked.ts';
import { childOf, type Entry, pathText, writtenOf } from '../sheet/entry.ts';
import { valueAt } from '../sheet/path.ts';
import { entryOf } from '../sheet/read.ts';
import { child, type FieldSchema, resolve, root, schemaAt } from '../sheet/schema.ts';
import { slots } from '../sheet/slots.ts';
import { echo } from '../text/echo.ts';

/** A field for which another value can be tried: its value now, empty where it has none, and its choices where it has some. */
export type Triable = { field: string; value: string; choices: readonly string[] };

/** What says nothing that a figure or a rule could be tried with. */
const WORDS = ['format', 'title', 'notes', 'silence'];

/**
 * Every field another value can be tried for: those that are written, then parts for which there are catalogs, then what the
 * sheet could have besides.
 */
export function triableFields({ sheet, house }: Checked): Triable[] {
  const { root: tree, text, values } = sheet;
  const sections = tree.children.filter(({ path }) => !WORDS.includes(String(path[0])));
  const written = sections.flatMap((section) => writtenUnder(section, text));
  const parts = slots.flatMap(({ field, path, kind }): Triable[] => {
    const choices = house.shelf?.ofKind(kind).map(({ id }) => id) ?? [];
    const use = valueAt(values, [...path, 'use']);
    return choices.length === 0 ? [] : [{ field, value: typeof use === 'string' ? use : '', choices }];
  });
  const stages = (values.stages ?? []).flatMap(({ name }, index) => {
    const stage = entryOf(sheet, ['stages', index]);
    const schema = schemaAt(['stages', 0]);
    return stage && schema ? missingUnder(schema, stage, stageName(name, index)) : [];
  });
  return [...written, ...parts, ...stages, ...missingUnder(root, tree, '')].map(named(values.stages ?? []));
}

const stageName = (name: string | undefined, index: number) => (name ? `stages.${name}` : `stages[${index}]`);

/** A field of a stage by the stage's name, as somebody would tell it. */
function named(stages: readonly { name?: string }[]) {
  return ({ field, ...rest }: Triable): Triable => {
    const [whole = '', number = ''] = /^stages\[(\d+)\]/.exec(field) ?? [];
    const index = Number(number);
    return { field: whole ? stageName(stages[index]?.name, index) + field.slice(whole.length) : field, ...rest };
  };
}

/** Every field under an entry with a value of its own. */
function writtenUnder(entry: Entry, text: string): Triable[] {
  if (entry.kind === 'scalar' && entry.key && !entry.inherited) {
    const choices = choicesOf(schemaAt(entry.path));
    return [{ field: pathText(entry.path), value: echo(writtenOf(entry, text)), choices }];
  }
  return entry.children.flatMap((inner) => writtenUnder(inner, text));
}

/** Every single value that a section could have and does not; what is a list is left out. */
function missingUnder(schema: FieldSchema, entry: Entry | undefined, lead: string): Triable[] {
  return Object.keys(resolve(schema).properties ?? {}).flatMap((name) => {
    const field = lead ? `${lead}.${name}` : name;
    const own = child(schema, name);
    if (!own || WORDS.includes(field) || name === 'changes' || name === 'use') return [];
    const inner = resolve(own);
    const written = entry && childOf(entry, name);
    if (inner.properties) return missingUnder(inner, written, field);
    return written || inner.type === 'array' ? [] : [{ field, value: '', choices: choicesOf(inner) }];
  });
}

function choicesOf(schema: FieldSchema | undefined): readonly string[] {
  if (!schema) return [];
  const { enum: choices, type } = resolve(schema);
  return choices?.map(String) ?? (type === 'boolean' ? ['true', 'false'] : []);
}
