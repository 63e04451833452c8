import type { StageAnalysis } from '../analysis/analysis.ts';
import type { Figure } from '../analysis/figure.ts';
import { capital, withSpread } from '../analysis/figure-words.ts';
import { headlines } from '../analysis/headlines.ts';
import type { Accepted } from '../checking/finding.ts';
import { derivation } from '../report/figure-text.ts';
import { type Block, type Page, paragraph, prose, type Span } from '../report/page.ts';
import { type Entry, entryAt, pathText, type Range } from '../sheet/entry.ts';
import type { FieldSchema, Path } from '../sheet/schema.ts';
import { echo } from '../text/echo.ts';
import { conversions, formatIn, formatValue } from '../units/format.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity, type Quantity } from '../units/quantity.ts';
import type { Dimension, System } from '../units/units.ts';

type Figures = StageAnalysis['figures'];

/** What there is to read of a field, and the text it is about. */
export type Explanation = { range: Range; page: Page };

/** What to know of the field at an offset: its meaning, its value in other units, and the figures it decides. */
export function hoverAt(
  root: Entry,
  offset: number,
  plan: readonly StageAnalysis[],
  system: System,
  accepted: readonly Accepted[] = [],
): Explanation | undefined {
  const entry = describedEntry(root, offset);
  if (!entry?.schema) return undefined;
  const page = [
    ...heading(entry),
    ...valueLines(entry),
    ...acceptedLines(entry, accepted),
    ...figuresOf(entry, plan, system),
  ];
  return { range: entry.key ?? entry.value, page };
}

/** The entry at the offset; the name of a stage stands for the stage. */
function describedEntry(root: Entry, offset: number): Entry | undefined {
  const entry = entryAt(root, offset);
  const [section, index, field] = entry.path;
  if (section !== 'stages' || field !== 'name') return entry.path.length ? entry : undefined;
  const stages = root.children.find(({ path }) => path[0] === section);
  const stage = stages?.children.find(({ path }) => path[1] === index);
  return stage && { ...stage, key: entry.value };
}

function heading({ path, schema }: Entry): Block[] {
  const title = paragraph({ strong: schema?.title ?? String(path.at(-1)) }, ' ', { code: echo(pathText(path), 120) });
  return schema?.description ? [title, paragraph(...prose(schema.description))] : [title];
}

function valueLines({ schema, scalar, kind }: Entry): Block[] {
  if (!schema || kind !== 'scalar') return [];
  if (schema.dimension) return quantityLines(schema, parseQuantity(String(scalar), schema.dimension));
  const index = schema.enum?.indexOf(String(scalar)) ?? -1;
  const meaning = schema.enumDescriptions?.[index];
  return meaning ? [paragraph({ code: String(scalar) }, ': ', ...prose(meaning))] : [];
}

function quantityLines(schema: FieldSchema, read: ReturnType<typeof parseQuantity>): Block[] {
  if (!isQuantity(read)) return [];
  const others = conversions(read);
  const equal = others.length ? `${formatIn(read.value, read.dimension, read.unit)} = ${others.join(' = ')}` : '';
  const range = schema.allowed ? `Possible: ${schema.allowed.from} to ${schema.allowed.to}.` : '';
  const note = read.note ? `Note: ${read.note}.` : '';
  return [equal, toleranceLine(read), note, range].filter(Boolean).map((line) => paragraph(line));
}

function toleranceLine({ low, high, dimension, unit }: Quantity): string {
  return low === high ? '' : `From ${formatIn(low, dimension, unit)} to ${formatIn(high, dimension, unit)}.`;
}

const MOST_ACCEPTED = 50;

/** On a silencer, or on all of them: what is accepted and why. */
function acceptedLines({ path }: Entry, accepted: readonly Accepted[]): Block[] {
  if (path[0] !== 'silence') return [];
  const all = accepted.filter(({ silencer }) => path.length === 1 || path[1] === silencer);
  const here = all.slice(0, MOST_ACCEPTED);
  if (here.length === 0) return [];
  const items = here.map(({ finding, reason }): Span[] => [
    'accepted ',
    { code: finding.rule },
    ': ',
    ...prose(finding.message),
    ` Reason: ${echo(reason, 300)}`,
  ]);
  const more = all.length - here.length;
  return [{ kind: 'list', items }, ...(more ? [paragraph(`And ${more} more.`)] : [])];
}

function figuresOf(entry: Entry, plan: readonly StageAnalysis[], system: System): Block[] {
  const stages = stagesFor(entry.path, plan);
  const ids = figureIds(entry, stages);
  const known = stages.map(({ figures }) => figures);
  const rows = ids.map((id) => row(id, known, system)).filter((cells) => cells !== undefined);
  const missing = missingOf(entry, stages);
  const hungriest = stages.toSorted((one, other) => demand(other) - demand(one))[0];
  const isStage = entry.path[0] === 'stages' && entry.path.length === 2;
  const byHunger = (hungriest ? [hungriest, ...stages] : []).map(({ figures }) => figures);
  const explained = isStage ? new Set([...ids, ...(byHunger[0]?.keys() ?? [])]) : ids;
  const work = [...explained]
    .flatMap((id) => byHunger.find((figures) => figures.has(id))?.get(id) ?? [])
    .flatMap((figure) => derivation(figure, system));
  if (work.length === 0) return missing;
  const where = stages.length > 1 ? `, stage "${echo(hungriest?.name ?? '')}"` : '';
  const head = ['figure', ...stages.map(({ name }) => echo(name))];
  const table: Block[] = rows.length > 0 ? [{ kind: 'table', head, rows }] : [];
  return [...table, ...missing, { kind: 'divider' }, paragraph(`The work${where}:`), ...work];
}

function demand({ figures }: StageAnalysis): number {
  return figures.get('demand-by-power')?.value ?? 0;
}

/** One stage for a field of that stage, else all of them. */
function stagesFor(path: Path, plan: readonly StageAnalysis[]): readonly StageAnalysis[] {
  const index = path[0] === 'stages' ? path[1] : undefined;
  return typeof index === 'number' ? plan.filter((stage) => stage.index === index) : plan;
}

/** Figures at home on the field, else those computed directly from it. */
function figureIds(entry: Entry, stages: readonly StageAnalysis[]): string[] {
  const home = homePath(entry.path);
  const here = pathText(entry.path);
  const ids = new Set<string>();
  for (const { figures } of stages) {
    for (const [id, figure] of figures) if (homes(figure.home, home) || uses(figure, here)) ids.add(id);
  }
  const first = headlines[home] ?? [];
  return [...first.filter((id) => ids.has(id)), ...[...ids].filter((id) => !(first as readonly string[]).includes(id))];
}

function homes(fields: readonly string[], field: string): boolean {
  return fields.includes(field);
}

function uses({ inputs }: Figure, field: string): boolean {
  return inputs.some((input) => input.field !== undefined && pathText(input.field) === field);
}

/** The path as figures name their home: without numbers and without the stage whose change it is. */
function homePath(path: Path): string {
  const steps = path.filter((step) => typeof step === 'string');
  const inChanges = steps[0] === 'stages' && steps[1] === 'changes';
  return (inChanges ? steps.slice(2) : steps).join('.');
}

function row(id: string, known: readonly Figures[], system: System): string[] | undefined {
  const figures = known.map((stage) => stage.get(id));
  const named = figures.find((figure) => figure !== undefined);
  const show = (value: number, dimension: Dimension) => formatValue(value, dimension, system);
  return named && [capital(named.name), ...figures.map((figure) => (figure ? withSpread(figure, show) : '-'))];
}

function missingOf(entry: Entry, stages: readonly StageAnalysis[]): Block[] {
  const home = homePath(entry.path);
  const lines = new Map<string, Span[]>();
  for (const { absent } of stages) {
    for (const { name, lacks, impossible, home: fields } of absent.values()) {
      if (!homes(fields, home) || (!impossible && lacks.length === 0)) continue;
      const missing = lacks.flatMap((need, index): Span[] => [index ? ', ' : '', { code: need }]);
      const line: Span[] = impossible ? [`${capital(name)}: ${impossible}`] : [`${capital(name)} needs `, ...missing];
      lines.set(JSON.stringify(line), line);
    }
  }
  return lines.size ? [paragraph('Not computed:'), { kind: 'list', items: [...lines.values()] }] : [];
}
