/** Generates what is written once elsewhere: types and validator from schemas/, the lists of rules and of verbs from their folders. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import standaloneCode from 'ajv/dist/standalone/index.js';
import { compile, type JSONSchema } from 'json-schema-to-typescript';
import { emptiable, type Node } from './emptiable.ts';

const OUT = 'server/src/generated';
const VOCABULARY = ['dimension'];
const read = (name: string) => JSON.parse(readFileSync(`schemas/${name}`, 'utf8'));

const PROSE = new Set([
  'title',
  'description',
  'examples',
  'enumDescriptions',
  'synonyms',
  'formerly',
  'enumSynonyms',
  'allowed',
  'usually',
  'likely',
  'default',
  'attested',
  'absent',
  'question',
  'part',
  'first',
  'only',
  'given',
  'fitted',
  'point',
]);
const LENGTHS = new Set(['minItems', 'maxItems', 'patternProperties']);

/** Whether a value under `title` is a field of that name rather than the schema's own title. */
function isSchema(value: unknown): boolean {
  return typeof value === 'object' && value !== null && ('type' in value || '$ref' in value || 'dimension' in value);
}

/** The schema without prose, so that the compiled validator does not carry it. */
function bare(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(bare);
  if (!node || typeof node !== 'object') return node;
  return Object.fromEntries(
    Object.entries(node)
      .filter(([key, value]) => !(PROSE.has(key) && !isSchema(value)))
      .map(([key, value]) => [key, bare(value)]),
  );
}

/** Quantities are objects once they are read, and titles would make a type of every field. */
function forTypes(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(forTypes);
  if (!node || typeof node !== 'object') return node;
  if (typeof (node as { dimension?: unknown }).dimension === 'string') return { tsType: 'Quantity' };
  return Object.fromEntries(
    Object.entries(node)
      .filter(([key, value]) => !(PROSE.has(key) && !isSchema(value)) && !LENGTHS.has(key))
      .map(([key, value]) => [key, forTypes(value)]),
  );
}

function titled(definitions: Node): Node {
  return Object.fromEntries(
    Object.entries(definitions).map(([name, schema]) => [name, { ...(forTypes(schema) as Node), title: name }]),
  );
}

async function types(schema: Node, name: string, definitions: Node): Promise<string> {
  const root = { ...(forTypes(schema) as Node), title: name, definitions };
  const oneFile = JSON.parse(
    JSON.stringify(root).replaceAll(/"[a-z-]+\.schema\.json#\/definitions\//g, '"#/definitions/'),
  );
  const options = { bannerComment: '', additionalProperties: false, format: false, unreachableDefinitions: false };
  const text = await compile(oneFile as JSONSchema, name, options);
  return `import type { Quantity } from '../units/quantity.ts';\n\n${text}`;
}

function validator(schemas: readonly Node[]): string {
  const ajv = new Ajv({
    schemas: schemas.map((schema) => emptiable(bare(schema)) as Node),
    allErrors: true,
    strict: true,
    allowUnionTypes: true,
    messages: false,
    inlineRefs: false,
    code: { source: true, esm: true },
    keywords: VOCABULARY,
  });
  return standaloneCode(ajv, {
    validateSheet: 'build-sheet.schema.json',
    validateConfig: 'build-sheet.config.schema.json',
    validateCatalog: 'catalog.schema.json',
  });
}

const sheet = read('build-sheet.schema.json');
const parts = read('parts.schema.json');
const config = read('build-sheet.config.schema.json');
const catalog = read('catalog.schema.json');
mkdirSync(OUT, { recursive: true });
const definitions = { ...titled(parts.definitions), ...titled(sheet.definitions) };
writeFileSync(`${OUT}/build-sheet.ts`, await types(sheet, 'BuildSheet', definitions));
writeFileSync(`${OUT}/house-config.ts`, await types(config, 'HouseConfig', definitions));
writeFileSync(`${OUT}/catalog.ts`, await types(catalog, 'Catalog', { ...definitions, ...titled(catalog.definitions) }));
writeFileSync(`${OUT}/validate.js`, validator([parts, sheet, config, catalog]));
writeFileSync(
  `${OUT}/validate.d.ts`,
  `import type { ErrorObject } from 'ajv';

type Validate = { (value: unknown): boolean; errors?: ErrorObject[] | null };
export const validateSheet: Validate;
export const validateConfig: Validate;
export const validateCatalog: Validate;
`,
);

/** Every field of a sheet by its path, those of a stage under `stages`, of a reading under `measured`; stages and lists are not numbered. */
function fieldPaths(schema: Node, prefix = ''): string[] {
  const target = resolved(schema);
  const properties = Object.entries(target.properties ?? {});
  return properties.flatMap(([name, inner]) => {
    if (prefix === 'stages.' && name === 'changes') return [];
    const path = `${prefix}${name}`;
    const field = resolved(inner);
    const below = path === 'stages' || path === 'measured' ? (field.items as Node) : field;
    return [path, ...fieldPaths(below, `${path}.`)];
  });
}

function resolved(schema: Node): Node {
  const name = typeof schema.$ref === 'string' ? schema.$ref.split('#/definitions/')[1] : undefined;
  const found = name === undefined ? undefined : (sheet.definitions[name] ?? parts.definitions[name]);
  return found ? resolved(found as Node) : schema;
}

const paths = fieldPaths(sheet).map((path) => `  | '${path}'`);
writeFileSync(`${OUT}/paths.ts`, `export type FieldPath =\n${paths.join('\n')};\n`);

const RULES = 'server/src/rules';
const ruleFiles = readdirSync(RULES, { withFileTypes: true })
  .filter((area) => area.isDirectory())
  .flatMap(({ name }) => readdirSync(`${RULES}/${name}`).map((file) => `${name}/${file}`))
  .toSorted();
const imports = ruleFiles.map((file, index) => `import { rule as rule${index} } from '../rules/${file}';`);
const list = ruleFiles.map((_, index) => `rule${index}`).join(', ');
writeFileSync(
  `${OUT}/rules.ts`,
  `import type { Rule } from '../checking/rule.ts';\n${imports.join('\n')}\n\nexport const rules: readonly Rule[] = [${list}];\n`,
);

const VERBS = 'server/src/cli/verbs';
const verbs = readdirSync(VERBS)
  .toSorted()
  .map((file) => `  '${file.replace(/\.ts$/, '')}': () => import('../cli/verbs/${file}'),`);
writeFileSync(
  `${OUT}/verbs.ts`,
  `/** Every verb of the command line, loaded when it is wanted. */\nexport const verbs = {\n${verbs.join('\n')}\n};\n`,
);
