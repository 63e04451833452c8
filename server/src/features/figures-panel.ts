import { capital } from '../analysis/figure-words.ts';
import { figures } from '../analysis/figures.ts';
import type { FigureNode } from '../analysis/node.ts';
import type { Checked } from '../checking/checked.ts';
import { lastingIdentity } from '../checking/identity.ts';
import type { Severity } from '../checking/rule.ts';
import { cellOf, type FigureCell } from '../report/model.ts';
import { unitsIn } from '../sheet/house.ts';
import { echo, quoted } from '../text/echo.ts';
import type { Range } from '../text/place.ts';
import { against } from '../units/digits.ts';
import { formatGiven, formatValue, type Units, unitFor } from '../units/format.ts';
import type { Dimension } from '../units/units.ts';
import { FigurePlaces } from './figure-places.ts';
import { isAtHome, topics } from './report.ts';

/** A stage as it is, as it was, or as it would be with other values. */
export type Column = { stage: string; kind: 'now' | 'was' | 'tried' };

/**
 * How much of its limit a figure takes, 1 being all of it: as it is, and over its tolerance from `low` to `high`. The limit in
 * words.
 */
export type Bar = { share: number; low: number; high: number; limit: string };

/** A figure in a column. */
export type Cell = { text: string; isMissed: boolean; isOther: boolean; bar?: Bar };

/** A figure over the columns, and which of the panel's places have the fields it belongs to or is computed from. */
export type Row = { figure: string; name: string; places: readonly number[]; cells: readonly (Cell | null)[] };

/** Something found, with the stages it is found in, where that is not all of them. */
type FoundLine = { severity: Severity; message: string; stages: string; range: Range };

/** What a sheet comes to, figure by figure, for a panel beside it. */
export type FiguresPanel = {
  title: string;
  columns: readonly Column[];
  places: readonly Range[];
  topics: readonly { heading: string; rows: readonly Row[] }[];
  findings: readonly FoundLine[];
  /** What other values would bring and take away, in words. */
  tried?: { found: readonly string[]; gone: readonly string[] };
};

/** What figures stand beside: an earlier text of the sheet, and the sheet with other values. */
export type Others = { was?: Checked | undefined; tried?: Checked | undefined };

/** The figures of a sheet beside others; of the topics that are `shut`, the heading alone. */
export function figuresPanel(now: Checked, { was, tried }: Others = {}, shut: readonly string[] = []): FiguresPanel {
  const sides: { kind: Column['kind']; checked: Checked }[] = [
    { kind: 'now', checked: now },
    ...(was ? [{ kind: 'was', checked: was } as const] : []),
    ...(tried ? [{ kind: 'tried', checked: tried } as const] : []),
  ];
  const columns = now.plan.flatMap(({ name, index }) =>
    sides.map(({ kind, checked }) => ({ kind, index, stage: name, plan: checked.plan })),
  );
  const units = unitsIn(now.house);
  const places = new FigurePlaces(now);
  const rowOf = (node: FigureNode): Row[] => {
    const present = now.plan.map((stage) => cellOf(stage, node));
    const cells = columns.map(({ kind, index, stage, plan }) => {
      const other = kind === 'now' ? present[index] : otherCell(plan, stage, index, node);
      return other ? shown(other, node.dimension, units, kind === 'now' ? undefined : present[index]) : null;
    });
    if (cells.every((cell) => cell === null)) return [];
    return [{ figure: node.id, name: capital(node.name), places: places.of(node), cells }];
  };
  return {
    title: echo(now.sheet.values.title ?? 'Build sheet'),
    columns: columns.map(({ stage, kind }) => ({ stage: echo(stage, 40), kind })),
    topics: figuresByTopic.flatMap(({ heading, nodes }) => {
      if (shut.includes(heading)) return [{ heading, rows: [] }];
      const rows = nodes.flatMap(rowOf);
      return rows.length > 0 ? [{ heading, rows }] : [];
    }),
    places: places.all,
    findings: findingsOf(now),
    ...(tried && { tried: findingsMoved(now, tried) }),
  };
}

const figuresByTopic = topics.map(({ heading, home }) => ({
  heading,
  nodes: figures.filter((node) => isAtHome(node, home)),
}));

/** The figure of a stage in another state of the sheet: of the stage of that name, else of that number. */
function otherCell(plan: Checked['plan'], name: string, index: number, node: FigureNode): FigureCell | undefined {
  const stage = plan.find((one) => one.name === name) ?? plan[index];
  return stage && cellOf(stage, node);
}

function shown(cell: FigureCell, dimension: Dimension, units: Units, present: FigureCell | undefined): Cell {
  const { value, low = value, high = value, limit } = cell;
  const text =
    limit === undefined
      ? formatValue(value, dimension, units, high - low)
      : against(value, limit.value, dimension, unitFor(value, dimension, units)).value;
  const isOther = present !== undefined && Math.abs(value - present.value) > 1e-6 * Math.abs(present.value);
  const isMissed = (limit?.margin ?? 0) < 0;
  if (!limit) return { text, isMissed, isOther };
  const words = `${limit.side} ${formatGiven(limit.value, dimension, units)}`;
  if (limit.value <= 0) return { text: `${text}, ${words}`, isMissed, isOther };
  const [share = 0, ...ends] = [value, low, high].map((one) => one / limit.value);
  return { text, isMissed, isOther, bar: { share, low: Math.min(...ends), high: Math.max(...ends), limit: words } };
}

function findingsOf({ findings, plan, sheet }: Checked): FoundLine[] {
  const problems = sheet.problems.map(({ severity = 'error' as Severity, message, range }) => ({
    severity,
    message,
    stages: '',
    range,
  }));
  return [
    ...problems,
    ...findings.map((finding) => ({
      severity: finding.severity,
      message: finding.message,
      stages: namesOf(finding, plan),
      range: finding.range,
    })),
  ];
}

/** The stages a finding holds in, where that is not all of them and the message does not say it. */
function namesOf({ stages, message }: Checked['findings'][number], plan: Checked['plan']): string {
  if (stages.length === plan.length) return '';
  const names = stages.map((stage) => plan[stage]?.name ?? '');
  return names.every((name) => message.includes(quoted(name))) ? '' : names.map((name) => echo(name, 40)).join(', ');
}

/** What is found with other values and not as the sheet is, and the other way round. */
function findingsMoved(now: Checked, tried: Checked): { found: string[]; gone: string[] } {
  return { found: foundOnlyIn(tried, now), gone: foundOnlyIn(now, tried) };
}

function foundOnlyIn(one: Checked, other: Checked): string[] {
  const known = new Set(other.findings.map((finding) => identityIn(other, finding)));
  return one.findings
    .filter((finding) => !known.has(identityIn(one, finding)))
    .map((finding) => {
      const names = namesOf(finding, one.plan);
      return `${finding.severity}: ${finding.message}${names ? ` (${names})` : ''}`;
    });
}

function identityIn({ sheet, plan }: Checked, finding: Checked['findings'][number]): string {
  return lastingIdentity(
    finding,
    sheet.values,
    plan.map(({ name }) => name),
  );
}
