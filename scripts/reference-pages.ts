/**
 * Writes the reference in schemas/reference/ from what it documents: a page for each rule from the rule and its fixture, a
 * page for each problem with the text, and the fields from the schemas, which are published beside them.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import { cautions, cautionsOf } from '../server/src/checking/cautions.ts';
import { checkText } from '../server/src/checking/checked.ts';
import { verifiedRepairs } from '../server/src/checking/repair.ts';
import { areas, type Rule } from '../server/src/checking/rule.ts';
import { lineClasses } from '../server/src/engineering/hoses.ts';
import { rules } from '../server/src/generated/rules.ts';
import { classOf } from '../server/src/remedies/line-class.ts';
import { applyEdits } from '../server/src/sheet/edit.ts';
import { noHouse } from '../server/src/sheet/house.ts';
import { problemCodes } from '../server/src/sheet/problem.ts';
import { catalogRoot, type FieldSchema, houseRoot, resolve, root } from '../server/src/sheet/schema.ts';
import { dimensions } from '../server/src/units/units.ts';
import { FIXTURES, fixtures, readFixture, readMarked } from '../tests/rules/fixture.ts';
import { emptiable } from './emptiable.ts';

const OUT = 'schemas/reference';
const CAUTION =
  'This page is a help to think, not an approval. Follow local codes and the makers of the parts, and have the work done or checked by a licensed workshop where the law asks for it.';

const SCHEMAS = [
  'build-sheet.schema.json',
  'parts.schema.json',
  'catalog.schema.json',
  'build-sheet.config.schema.json',
];

/** A schema as other tools use it: with empty fields allowed, as this one does. */
function publishedSchema(name: string): string {
  const schema = JSON.parse(readFileSync(join('schemas', name), 'utf8'));
  return `${JSON.stringify(emptiable(schema), null, 2)}\n`;
}

/** Every page by its path under schemas/reference/. */
export function referencePages(): Map<string, string> {
  const pages = new Map<string, string>();
  for (const rule of rules) pages.set(`rules/${rule.id}.md`, rulePage(rule));
  for (const code of Object.keys(problemCodes))
    pages.set(`rules/${code}.md`, problemPage(code as keyof typeof problemCodes));
  pages.set('rules/README.md', ruleIndex());
  pages.set('fields.md', fieldPage('Fields of a build sheet', 'Written in `*.build.yaml` and `*.build.yml`.', root));
  pages.set(
    'house-rules.md',
    fieldPage(
      'House rules',
      'Written in `build-sheet.config.yaml`; they hold for their folder and those below it.',
      houseRoot,
    ),
  );
  pages.set(
    'catalogs.md',
    fieldPage(
      'Catalogs',
      'Written in `*.parts.yaml` and `*.parts.yml`; house rules name them under `catalogs`, and a sheet takes a part over with `use`. The sections of a part are those of [a sheet](fields.md).',
      catalogRoot,
    ),
  );
  for (const name of SCHEMAS) pages.set(name, publishedSchema(name));
  pages.set('units.md', unitPage());
  pages.set('hose-classes.md', hosePage());
  return pages;
}

function rulePage(rule: Rule): string {
  const fixture = fixtures().find((one) => one.rule === rule.id);
  const bad = fixture?.bad ?? [];
  const examples = bad.map((file, index) =>
    example(rule, fixture?.folder ?? '', file, bad.length > 1 ? `Example ${index + 1}` : 'Example'),
  );
  return lines(
    `# ${rule.title}`,
    `\`${rule.id}\` - ${rule.severity}${'capacity' in rule ? ', asked of every stage of the plan' : ''}`,
    `## Why\n\n${rule.why}`,
    `## What to look at\n\n${rule.inspect}`,
    `## How it is repaired\n\n${rule.remedy}`,
    ...examples,
    '## If you accept it',
    `Write the reason into the sheet:\n\n\`\`\`yaml\nsilence:\n  - rule: ${rule.id}\n    reason: why it is accepted here\n\`\`\``,
    `Or change its severity for a whole folder in \`build-sheet.config.yaml\`:\n\n\`\`\`yaml\nrules:\n  ${rule.id}: { severity: hint, reason: why the house sees it so }\n\`\`\``,
    `## Source\n\n${capital(rule.source)}.`,
    '## Caution',
    cautionsOf(rule)
      .map((caution) => `- ${caution}`)
      .join('\n'),
    CAUTION,
  );
}

/** A bad sheet before, what is found in it, and what each repair makes of it, under titles that differ. */
function example(rule: Rule, folder: string, file: string, name: string): string {
  const { text } = readMarked(readFixture(folder, file));
  const checked = checkText(text, noHouse);
  const finding = checked.findings.find((one) => one.rule === rule.id || one.found === rule.id);
  if (!finding) throw new Error(`${folder}/${file} does not show ${rule.id}`);
  const repairs = verifiedRepairs(checked, finding).map(
    ({ title, edits }, index) =>
      `### ${name}, repair ${index + 1}: ${title}\n\n\`\`\`diff\n${hunk(text, applyEdits(text, edits))}\n\`\`\``,
  );
  return lines(
    `## ${name}, as found`,
    `\`\`\`yaml\n${text.trimEnd()}\n\`\`\``,
    `At \`${text.slice(finding.range.start, finding.range.end)}\`: ${finding.message}`,
    ...repairs,
  ).trimEnd();
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The lines that change, with one line around them. */
function hunk(before: string, after: string): string {
  const one = before.trimEnd().split('\n');
  const other = after.trimEnd().split('\n');
  let start = 0;
  while (start < Math.min(one.length, other.length) && one[start] === other[start]) start++;
  let tail = 0;
  while (tail < Math.min(one.length, other.length) - start && one.at(-1 - tail) === other.at(-1 - tail)) tail++;
  const context = (from: number, to: number) => one.slice(Math.max(from, 0), to).map((line) => ` ${line}`);
  return [
    ...context(start - 1, start),
    ...one.slice(start, one.length - tail).map((line) => `-${line}`),
    ...other.slice(start, other.length - tail).map((line) => `+${line}`),
    ...context(one.length - tail, one.length - tail + 1),
  ].join('\n');
}

function problemPage(code: keyof typeof problemCodes): string {
  const { title, why, example: text } = problemCodes[code];
  const { problems } = checkText(text ?? '', noHouse).sheet;
  const told = problems.filter((problem) => problem.code === code);
  const shown = text
    ? [
        '## Example',
        `\`\`\`yaml\n${text.trimEnd()}\n\`\`\``,
        ...told.map(({ range, message }) => `At \`${text.slice(range.start, range.end)}\`: ${message}`),
      ]
    : [];
  return lines(`# ${title}`, `\`${code}\` - ${told[0]?.severity ?? 'error'}`, why, ...shown);
}

function ruleIndex(): string {
  const byArea = Object.entries(areas).map(([area, name]) => {
    const rows = rules
      .filter(({ id }) => id.startsWith(`${area}/`))
      .map(({ id, title, severity }) => `| [\`${id}\`](${id}.md) | ${title} | ${severity} |`);
    return `## ${name}\n\n| rule | what is wrong | severity |\n|---|---|---|\n${rows.join('\n')}`;
  });
  const problems = Object.entries(problemCodes).map(([code, { title }]) => `| [\`${code}\`](${code}.md) | ${title} |`);
  return lines(
    '# Rules',
    `${rules.length} rules by area, then what can be wrong with the text itself.`,
    ...byArea,
    `## The text itself\n\n| code | what is wrong |\n|---|---|\n${problems.join('\n')}`,
  );
}

function fieldPage(title: string, intro: string, schema: FieldSchema): string {
  return lines(`# ${title}`, intro, ...fieldSections(schema, '', new Set()));
}

/** A table for the fields of each mapping, parts described once. */
function fieldSections(schema: FieldSchema, path: string, told: Set<FieldSchema>): string[] {
  const own = resolve(schema);
  if (told.has(own)) return [];
  told.add(own);
  const fields = Object.entries(own.properties ?? {}).map(([name, inner]) => [name, resolve(inner)] as const);
  const rows = fields.map(
    ([name, inner]) =>
      `| \`${name}\` | ${inner.title} | ${valueText(inner)} | ${(inner.description ?? '').replaceAll('|', '\\|')} |`,
  );
  const heading = path ? [`## \`${path}\``, own.description ?? ''] : [];
  const table = rows.length ? [`| field | name | value | meaning |\n|---|---|---|---|\n${rows.join('\n')}`] : [];
  const inner = fields.flatMap(([name, field]) => {
    const item = field.type === 'array' && !Array.isArray(field.items) && field.items ? resolve(field.items) : field;
    return item.type === 'object' ? fieldSections(item, path ? `${path}.${name}` : name, told) : [];
  });
  return [...heading, ...table, ...inner];
}

function valueText(schema: FieldSchema): string {
  const { dimension, allowed, usually, likely, type, minimum, maximum, examples = [], items } = schema;
  const shown = examples.filter((example) => typeof example !== 'object').map((example) => `\`${example}\``);
  const standard = schema.default === undefined ? '' : `; default \`${schema.default}\``;
  if (dimension)
    return `${dimensions[dimension].title}, such as ${shown.join(', ')}${allowed ? `; ${allowed.from} to ${allowed.to}` : ''}${usually ? `; usually ${usually.from} to ${usually.to}` : ''}${likely ? `; nearly always ${likely.from} to ${likely.to}` : ''}${standard}`;
  if (schema.enum) return schema.enum.map((choice) => `\`${choice}\``).join(', ');
  if (type === 'integer' || type === 'number')
    return `number${minimum === undefined ? '' : ` from ${minimum} to ${maximum}`}${standard}`;
  if (type === 'boolean') return '`true` or `false`';
  if (type === 'array') return Array.isArray(items) ? 'pair' : 'list';
  return type === 'object' ? 'fields of its own' : `text${shown.length ? `, such as ${shown[0]}` : ''}`;
}

function unitPage(): string {
  const rows = Object.values(dimensions).map(({ title, units }) => {
    const names = units.map((unit) =>
      [unit.name, ...('also' in unit ? (unit.also ?? []) : [])]
        .filter(Boolean)
        .map((name) => `\`${name}\``)
        .join(' '),
    );
    return `| ${title} | ${names.filter(Boolean).join(', ') || 'a bare number'} |`;
  });
  return lines(
    '# Units',
    'A quantity is a number and a unit: `350 hp`, `1 3/4 in`, `3/8 in`, `40 degC`, `12 AWG`. A tolerance is written `350 +/- 15 hp`, `225 L/h +/- 5 %` or `1.2..1.4 ms`. `cc/min` of an injector is read with the test fluid of the trade, 0.720 kg/L.',
    'Units may be spelled out, in the singular or plural: `18 gallons`, `302 cubic inches`, `80 pounds per hour`, `95 degrees F`. Fractions may be written `3 1/2 in`, `3-1/2"` or `3½ in`. Thousands stand without commas, points or spaces: `5500 rpm`.',
    'Pressures are gauge unless the field says absolute. `bar gauge`, `psig`, `kPa abs` and `psia` are read where they agree with the field. In a field of absolute pressure, `15 inHg vacuum` is counted down from the air at sea level, 101.325 kPa.',
    `| dimension | units |\n|---|---|\n${rows.join('\n')}`,
    'Factors: NIST Special Publication 811 (2008), Appendix B; wire gauges: ASTM B258.',
  );
}

function hosePage(): string {
  const rows = lineClasses.map(({ name, use, workingPressure, printedUpTo, ethanolShare, methanol, ...line }) => {
    const fields = Object.entries(classOf).filter(([, value]) => value === name);
    const field = fields.map(([material]) => `\`${material}\``).join(', ');
    const pressures = [workingPressure, ...(printedUpTo ? [printedUpTo] : [])]
      .map((one) => psiText(one))
      .join(', some ');
    const fuel = `${Math.round(ethanolShare * 100)} % ethanol${methanol ? ', methanol' : ''}`;
    return `| ${name} | ${field} | ${pressures} | ${fuel} | ${use}${line.submersible ? '; may lie in fuel' : ''} | ${line.source} |`;
  });
  return lines(
    '# Hose classes',
    'What the classes of fuel hose and tube stand, as the rules count with. It is on the safe side: the print on the hose and the data of its maker go before it. A `pressure-rating` in the sheet replaces the pressure of the class.',
    `| class | \`material\` | working pressure | fuel, up to | place | source |\n|---|---|---|---|---|---|\n${rows.join('\n')}`,
    '## Caution',
    `- ${cautions['fuel-pressure']}\n- ${cautions.alcohol}`,
    CAUTION,
  );
}

function psiText(pascal: number): string {
  return `${Math.round(pascal / 6894.757)} psi (${Math.round(pascal / 1e4) * 10} kPa)`;
}

function lines(...parts: string[]): string {
  return `${parts.filter(Boolean).join('\n\n')}\n`;
}

function filesUnder(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.md'))
    .map((entry) => relative(OUT, join(entry.parentPath, entry.name)));
}

/** Pages that are missing, stale or left over. */
export function outdatedPages(): string[] {
  const pages = referencePages();
  const stale = [...pages].filter(
    ([path, text]) => !existsSync(join(OUT, path)) || readFileSync(join(OUT, path), 'utf8') !== text,
  );
  const extra = filesUnder(join(OUT, 'rules')).filter((path) => !pages.has(path));
  return [...stale.map(([path]) => path), ...extra];
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  rmSync(join(OUT, 'rules'), { recursive: true, force: true });
  for (const [path, text] of referencePages()) {
    mkdirSync(dirname(join(OUT, path)), { recursive: true });
    writeFileSync(join(OUT, path), text);
  }
  console.log(`${rules.length} rules from ${FIXTURES} written to ${OUT}`);
}
