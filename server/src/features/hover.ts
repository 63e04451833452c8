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

/** Lines that a hover has at most, and rows of its table. */
const MOST_LINES = 10;
const MOST_ROWS = 4;
/** Characters of a paragraph; a hover shows what can be taken in at a glance. */
const MOST_CHARACTERS = 240;

const NO_BREAK = '\u00a0';

/** What to know of the field at an offset, in ten lines: meaning, value in other units, figures that matter, and why it is wrong. */
export function hoverAt(root: Entry, offset: number, known: Known): Explanation | undefined {
  const entry = describedEntry(root, offset);
  if (!entry?.schema) return undefined;
  const above = [
    ...heading(entry),
    ...valueLines(entry),
    ...acceptedLines(entry, known.accepted),
    ...whyLines(entry, known),
    ...known.needs.map((spans) => paragraph(...spans)),
  ];
  const table = figureTable(entry, known, MOST_LINES - above.length);
  const hasWork = table.length > 0;
  return { range: entry.key ?? entry.value, page: [...above, ...table], hasWork };
}

function heading({ path, schema }: Entry): Block[] {
  const title = paragraph({ strong: schema?.title ?? String(path.at(-1)) }, ' ', { code: echo(pathText(path), 120) });
  return schema?.description ? [title, paragraph(...prose(firstSentences(schema.description)))] : [title];
}

/** As many sentences of a text as a hover has room for, at least one. */
function firstSentences(text: string): string {
  const [first = '', ...others] = text.split(/(?<=\.) (?=[A-Z])/);
  return others.reduce(
    (taken, one) => (taken.length + one.length < MOST_CHARACTERS ? `${taken} ${one}` : taken),
    first,
  );
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
  const range = rangeLine(schema);
  const note = read.note ? `Note: ${read.note}.` : '';
  return [equal, toleranceLine(read), note, range].filter(Boolean).map((line) => paragraph(line));
}

function toleranceLine({ low, high, dimension, unit }: Quantity): string {
  return low === high ? '' : `From ${formatIn(low, dimension, unit)} to ${formatIn(high, dimension, unit)}.`;
}

/** On a silencer, or on all of them: what is accepted and why. */
function acceptedLines({ path }: Entry, accepted: readonly Accepted[]): Block[] {
  if (path[0] !== 'silence') return [];
  const all = accepted.filter(({ silencer }) => path.length === 1 || path[1] === silencer);
  const here = all.slice(0, MOST_ROWS);
  if (here.length === 0) return [];
  const items = here.map(({ finding, reason }): Span[] => [
    'accepted ',
    { code: finding.rule },
    ': ',
    ...prose(echo(finding.message, MOST_CHARACTERS)),
    ` Reason: ${echo(reason, MOST_CHARACTERS)}`,
  ]);
  const more = all.length - here.length;
  return [{ kind: 'list', items }, ...(more ? [paragraph(`And ${more} more.`)] : [])];
}

/** Why what is found here is wrong; the message itself stands beside it already. */
function whyLines(entry: Entry, { findings, why }: Known): Block[] {
  const { start } = entry.key ?? entry.value;
  const { end } = entry.kind === 'scalar' ? entry.value : (entry.key ?? entry.value);
  const here = findings.find(({ range }) => start <= range.start && range.start < end);
  const reason = here && why(here.rule);
  return reason ? [paragraph({ strong: 'Why:' }, ' ', ...prose(firstSentences(reason)))] : [];
}

/** The first figures of the field by stage, what they are held against, and what is still missing for the others. */
function figureTable(entry: Entry, known: Known, lines: number): Block[] {
  const { units } = known;
  const own = stagesFor(entry.path, known.plan);
  const missing = missingAt(entry, own, known.units);
  const filled = missing.some(({ lacks }) => lacks.length > 0) ? known.completed() : undefined;
  const stages = filled ? stagesFor(entry.path, filled.plan) : own;
  const show = (value: number, dimension: Dimension, spread?: number) =>
    formatValue(value, dimension, units, spread).replaceAll(' ', NO_BREAK);
  const rows = figureIds(entry, stages)
    .slice(0, Math.max(1, Math.min(MOST_ROWS, lines - 3)))
    .flatMap((id) => {
      const node = figureNamed(id);
      const row = node && figureRow(node, stages);
      if (!row) return [];
      const { name, dimension } = row;
      const bound = row.stages[0]?.limit;
      const held = bound ? ` (${bound.side} ${show(bound.value, dimension)})` : '';
      const isAssumed = row.stages.some((cell, index) => cell && !own[index]?.estimate(node));
      return [
        [
          `${capital(name)}${held}${isAssumed ? `${NO_BREAK}*` : ''}`,
          ...row.stages.map((cell) => (cell ? withSpread({ ...cell, dimension }, show) : '-')),
        ],
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
