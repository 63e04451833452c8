import type { StageAnalysis } from '../analysis/analysis.ts';
import { capital, withSpread } from '../analysis/figure-words.ts';
import { figureNamed } from '../analysis/figures.ts';
import type { Accepted, PlacedFinding } from '../checking/finding.ts';
import type { Build } from '../fit/build.ts';
import { figureRow } from '../report/model.ts';
import { type Block, type Page, paragraph, prose, type Span } from '../report/page.ts';
import { type Entry, pathText, type Range } from '../sheet/entry.ts';
import type { FieldSchema } from '../sheet/schema.ts';
import { rangeLine } from '../sheet/usual-range.ts';
import { echo } from '../text/echo.ts';
import { conversions, formatIn, formatValue, type Units } from '../units/format.ts';
import { parseQuantity } from '../units/parse.ts';
import { isQuantity, type Quantity } from '../units/quantity.ts';
import type { Dimension } from '../units/units.ts';
import { describedEntry, figureIds, missingAt, stagesFor } from './described.ts';
import { atAGlance, heightOf, roomUnder, thoseThatFit } from './glance.ts';

/** What there is to read of a field in short, the text it is about, and whether there is more to show. */
export type Explanation = { range: Range; page: Page; hasWork: boolean };

/** What is known of the sheet that is hovered over; of house rules nothing. */
export type Known = {
  plan: readonly StageAnalysis[];
  units: Units;
  accepted: readonly Accepted[];
  findings: readonly PlacedFinding[];
  why: (rule: string) => string | undefined;
  /** What the build needs of the part that is hovered over, a line each. */
  needs: readonly Span[][];
  /** The sheet with usual values where it says nothing. */
  completed: () => Build | undefined;
};

export const nothingKnown: Known = {
  plan: [],
  units: 'us',
  accepted: [],
  findings: [],
  why: () => undefined,
  needs: [],
  completed: () => undefined,
};

/** Rows of a table, and things accepted, that are told at a glance. */
const MOST_ROWS = 4;
/** Characters of a paragraph. */
const MOST_CHARACTERS = 240;

const NO_BREAK = '\u00a0';

/**
 * What to know of the field at an offset, as much as is seen without scrolling: meaning, value in other units, figures that
 * matter, and why it is wrong. What matters less is left out first.
 */
export function hoverAt(root: Entry, offset: number, known: Known): Explanation | undefined {
  const entry = describedEntry(root, offset);
  if (!entry?.schema) return undefined;
  const under = known.findings.filter(({ range }) => range.start <= offset && offset <= range.end);
  const room = roomUnder(under);
  const why = whyLines(entry, known, under.length > 0 ? 0 : MOST_CHARACTERS);
  const [table, ...missing] = figureTable(entry, known, under.length > 0);
  const title = paragraph({ strong: entry.schema.title ?? String(entry.path.at(-1)) }, ' ', {
    code: echo(pathText(entry.path), 120),
  });
  const meaning = meaningLines(entry.schema);
  const value = valueLines(entry);
  const accepted = acceptedLines(entry, known.accepted);
  const needs = known.needs.map((spans) => paragraph(...spans));
  const byWeight = why.length ? [...why, ...value, ...needs] : [...meaning, ...value, ...needs];
  const kept = thoseThatFit([title, ...byWeight], room - (table ? heightOf(shortest(table)) : 0));
  const above = [title, ...meaning, ...value, ...why, ...needs].filter((block) => kept.has(block));
  const page = atAGlance([...above, ...accepted, ...(table ? [table] : []), ...missing], room);
  return { range: entry.key ?? entry.value, page, hasWork: table !== undefined || missing.length > 0 };
}

/** A table of its first row alone. */
function shortest(block: Block): Block {
  return block.kind === 'table' ? { ...block, rows: block.rows.slice(0, 1) } : block;
}

function meaningLines({ description }: FieldSchema): Block[] {
  return description ? [paragraph(...prose(firstSentences(description)))] : [];
}

/** The sentences of a text that keep within a length, at least one. */
function firstSentences(text: string, most = MOST_CHARACTERS): string {
  const [first = '', ...others] = text.split(/(?<=\.) (?=[A-Z])/);
  return others.reduce((taken, one) => (taken.length + one.length < most ? `${taken} ${one}` : taken), first);
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
  const equal = others.length ? `${formatIn(read.value, read.dimension, read.unit)} = ${others.join(' = ')}.` : '';
  const range = rangeLine(schema);
  const note = read.note ? `Note: ${read.note}.` : '';
  const told = [equal, toleranceLine(read), range].filter(Boolean).join(' ');
  return [told, note].filter(Boolean).map((line) => paragraph(line));
}

function toleranceLine({ low, high, dimension, unit }: Quantity): string {
  return low === high ? '' : `From ${formatIn(low, dimension, unit)} to ${formatIn(high, dimension, unit)}.`;
}

/** On a silencer, or on all of them: what is accepted and why. */
function acceptedLines({ path }: Entry, accepted: readonly Accepted[]): Block[] {
  if (path[0] !== 'silence') return [];
  const all = accepted.filter(({ silencer }) => path.length === 1 || path[1] === silencer);
  if (all.length === 0) return [];
  const items = all
    .slice(0, MOST_ROWS)
    .map(({ finding, reason }): Span[] => [
      'accepted ',
      { code: finding.rule },
      ': ',
      ...prose(echo(finding.message, MOST_CHARACTERS)),
      ` Reason: ${echo(reason, MOST_CHARACTERS)}`,
    ]);
  const count = all.length > 1 ? [paragraph(`Accepted: ${all.length}.`)] : [];
  return [...count, { kind: 'list', items }];
}

/** Why what is found here is wrong; the message itself stands beside it already. */
function whyLines(entry: Entry, { findings, why }: Known, most: number): Block[] {
  const { start } = entry.key ?? entry.value;
  const { end } = entry.kind === 'scalar' ? entry.value : (entry.key ?? entry.value);
  const here = findings.find(({ range }) => start <= range.start && range.start < end);
  const reason = here && why(here.rule);
  return reason ? [paragraph({ strong: 'Why:' }, ' ', ...prose(firstSentences(reason, most)))] : [];
}

/**
 * The first figures of the field by stage, what they are held against, and what is still missing for the others; those with
 * limits before the rest where there may not be room for all.
 */
function figureTable(entry: Entry, known: Known, limitsFirst: boolean): Block[] {
  const { units } = known;
  const own = stagesFor(entry.path, known.plan);
  const missing = missingAt(entry, own, known.units);
  const filled = missing.some(({ lacks }) => lacks.length > 0) ? known.completed() : undefined;
  const stages = filled ? stagesFor(entry.path, filled.plan) : own;
  const show = (value: number, dimension: Dimension, spread?: number) =>
    formatValue(value, dimension, units, spread).replaceAll(' ', NO_BREAK);
  const found = figureIds(entry, stages)
    .slice(0, MOST_ROWS)
    .flatMap((id) => {
      const node = figureNamed(id);
      const row = node && figureRow(node, stages);
      return row ? [{ node, row, bound: row.stages[0]?.limit }] : [];
    });
  const ranked = limitsFirst ? [...found.filter(({ bound }) => bound), ...found.filter(({ bound }) => !bound)] : found;
  const rows = ranked.map(({ node, row: { name, dimension, stages: cells }, bound }) => {
    const held = bound ? ` (${bound.side} ${show(bound.value, dimension)})` : '';
    const isAssumed = cells.some((cell, index) => cell && !own[index]?.estimate(node));
    return [
      `${capital(name)}${held}${isAssumed ? `${NO_BREAK}*` : ''}`,
      ...cells.map((cell) => (cell ? withSpread({ ...cell, dimension }, show) : '-')),
    ];
  });
  const head = ['figure', ...stages.map(({ name }) => echo(name))];
  const table: Block[] = rows.length > 0 ? [{ kind: 'table', head, rows }] : [];
  return [...table, ...missingLine(missing, filled?.assumed.length ?? 0)];
}

function missingLine(
  missing: readonly { lacks: readonly string[]; name: string; impossible?: string }[],
  assumed: number,
): Block[] {
  const impossible = missing.find((one) => one.impossible);
  if (impossible) return [paragraph(`${capital(impossible.name)}: ${impossible.impossible}`)];
  const fields = [...new Set(missing.flatMap(({ lacks }) => lacks))];
  if (fields.length === 0) return [];
  const some = fields.slice(0, 3).flatMap((field, index): Span[] => [index ? ', ' : '', { code: field }]);
  const more = fields.length > 3 ? ` and ${fields.length - 3} more` : '';
  const taken = assumed > 0 ? `* with usual values: ${assumed} are assumed. ` : '';
  return [paragraph(`${taken}Not known yet: `, ...some, `${more}.`)];
}
