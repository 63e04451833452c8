import configSchema from '../../../schemas/build-sheet.config.schema.json' with { type: 'json' };
import sheetSchema from '../../../schemas/build-sheet.schema.json' with { type: 'json' };
import catalogSchema from '../../../schemas/catalog.schema.json' with { type: 'json' };
import partsSchema from '../../../schemas/parts.schema.json' with { type: 'json' };
import type { Dimension } from '../units/units.ts';
import type { Known } from './words.ts';

/** What the schema says of one field; references are resolved by `resolve`. */
export type FieldSchema = {
  $ref?: string;
  title?: string;
  description?: string;
  type?: string | string[];
  dimension?: Dimension;
  allowed?: { from: string; to: string };
  /** The range it usually has where it is not known. Common practice. */
  usually?: { from: string; to: string };
  /** The range nearly all values are in; one beyond it may be a slip. Common practice, from memory. */
  likely?: { from: string; to: string };
  default?: unknown;
  /** What a missing field means: there is none of it, or a usual value holds. Otherwise it is not known. */
  absent?: 'none' | 'usual';
  examples?: unknown[];
  enum?: string[];
  enumDescriptions?: string[];
  /** What to ask someone who does not know the format; `{part}` stands for what `part` says at the field or above it. */
  question?: string;
  part?: string;
  /** The fields of a section to ask for where nothing of it is known. */
  first?: string[];
  /** A section about what is given with the car and its plan, not chosen for the conversion. */
  given?: boolean;
  /** Says how a part sits in this car, not what the part is; it stays when another part is chosen. */
  fitted?: boolean;
  /** Makes sense only where another field is one of these; `usual` is what that is where the sheet does not say it. */
  only?: { field: string; is: (string | number | boolean)[]; usual?: string | number };
  /** Other names of the field in the trade. */
  synonyms?: string[];
  /** Names the field had in an earlier version of the format. */
  formerly?: string[];
  /** Other names of its choices in the trade. */
  enumSynonyms?: Record<string, string[]>;
  /** A point of careful installation: asked for after all that decides parts and figures, and counted apart. */
  point?: boolean;
  /** The values that state what a person has done or seen; no repair writes them. */
  attested?: (string | boolean)[];
  const?: unknown;
  pattern?: string;
  minimum?: number;
  maximum?: number;
  minItems?: number;
  maxItems?: number;
  required?: string[];
  properties?: Record<string, FieldSchema>;
  patternProperties?: Record<string, FieldSchema>;
  additionalProperties?: boolean | FieldSchema;
  items?: FieldSchema | FieldSchema[];
};

export type Path = readonly (string | number)[];

type SchemaFile = FieldSchema & { definitions?: Record<string, FieldSchema> };

/** Schema of a build sheet. */
export const root: SchemaFile = sheetSchema as unknown as SchemaFile;

/** Schema of a catalog. */
export const catalogRoot: SchemaFile = catalogSchema as unknown as SchemaFile;

/** Schema of the house rules. */
export const houseRoot: SchemaFile = configSchema as unknown as SchemaFile;

/** The definitions of all files; no two have one name. */
const definitions: Readonly<Record<string, FieldSchema>> = {
  ...(partsSchema as unknown as SchemaFile).definitions,
  ...root.definitions,
  ...catalogRoot.definitions,
  ...houseRoot.definitions,
};

const resolved = new WeakMap<FieldSchema, FieldSchema>();

/** The schema a reference stands for; any other schema as it is. */
export function resolve(schema: FieldSchema): FieldSchema {
  if (!schema.$ref) return schema;
  const known = resolved.get(schema);
  if (known) return known;
  const [, name = ''] = schema.$ref.split('#/definitions/');
  const target = definitions[name];
  if (!target) throw new Error(`schema reference ${schema.$ref} leads nowhere`);
  const found = resolve(target);
  resolved.set(schema, found);
  return found;
}

/** The schema of one step further down: a property by name or an item by number. */
export function child(schema: FieldSchema, step: string | number): FieldSchema | undefined {
  const { properties, patternProperties = {}, items, additionalProperties: others } = resolve(schema);
  if (typeof step === 'number') {
    const item = Array.isArray(items) ? items[step] : items;
    return item && resolve(item);
  }
  const named = properties && Object.hasOwn(properties, step) ? properties[step] : undefined;
  if (named) return resolve(named);
  const found =
    Object.entries(patternProperties).find(([pattern]) => new RegExp(pattern).test(step))?.[1] ??
    (typeof others === 'object' ? others : undefined);
  return found && resolve(found);
}

/** Whether a field of a section says how its part sits in this car; said where a shared definition is used, or in it. */
export function isFitted(section: FieldSchema, name: string): boolean {
  const own = resolve(section).properties?.[name];
  return own !== undefined && Boolean(own.fitted || resolve(own).fitted);
}

/** The fields a schema names, with what else the trade calls them. */
export function knownFields(schema: FieldSchema | undefined): Known[] {
  const names = Object.keys((schema && resolve(schema).properties) ?? {});
  return names.map((word) => {
    const { synonyms = [], formerly = [] } = (schema && child(schema, word)) ?? {};
    return { word, synonyms: [...synonyms, ...formerly] };
  });
}

/** The choices a schema names, with what else the trade calls them. */
export function knownChoices({ enum: choices = [], enumSynonyms = {} }: FieldSchema): Known[] {
  return choices.map((word) => ({ word, synonyms: enumSynonyms[word] ?? [] }));
}

/** The schema of the field at a path, if the schema knows it. */
export function schemaAt(path: Path): FieldSchema | undefined {
  let schema: FieldSchema | undefined = root;
  for (const step of path) schema = schema && child(schema, step);
  return schema;
}
