import { isKnown } from '../analysis/figure.ts';
import { capital } from '../analysis/figure-words.ts';
import { figures } from '../analysis/figures.ts';
import type { FigureNode } from '../analysis/node.ts';
import type { Checked } from '../checking/checked.ts';
import type { Severity } from '../checking/rule.ts';
import { captionOf, svgOf } from '../report/drawing.ts';
import { cellOf, type FigureCell } from '../report/model.ts';
import { type Entry, pathText, writtenOf } from '../sheet/entry.ts';
import { unitsIn } from '../sheet/house.ts';
import { stepsOf } from '../sheet/path.ts';
import { entryOf } from '../sheet/read.ts';
import { echo } from '../text/echo.ts';
import type { Range } from '../text/place.ts';
import { against } from '../units/digits.ts';
import { formatGiven, formatValue, type Units, unitFor } from '../units/format.ts';
import type { Dimension } from '../units/units.ts';
import { askedOf } from './questions.ts';
import { isAtHome, topics } from './report.ts';

/** A stage as it is, as it was, or as it would be with other values. */
export type Column = { stage: string; kind: 'now' | 'was' | 'tried' };

/** A figure in a column. `bar`: how much of its limit it takes, 1 being all of it, and the limit in words. */
export type Cell = { text: string; isMissed: boolean; isOther: boolean; bar?: { share: number; limit: string } };

/** A figure over the columns, and the fields of the text that it belongs to or is computed from. */
export type Row = { figure: string; name: string; places: readonly Range[]; cells: readonly (Cell | null)[] };

/** What a sheet comes to, figure by figure, for a panel beside it. */
export type FiguresPanel = {
  title: string;
  columns: readonly Column[];
  topics: readonly { heading: string; rows: readonly Row[] }[];
  findings: readonly { severity: Severity; message: string; stages: string; range: Range }[];
  questions: readonly string[];
  /** The fields that are written, each with its value, for another value to be tried. */
  fields: readonly { field: string; value: string }[];
};

/** A curve or drawing of the report as SVG, and what its signs stand for. */
export type PanelPlot = { heading: string; svg: string; caption: string };

const MOST_QUESTIONS = 8;
const MOST_FIELDS = 400;

/** The figures of a sheet, beside those of an earlier text of it and those with other values, where they are given. */
export function figuresPanel(now: Checked, was?: Checked, tried?: Checked): FiguresPanel {
  const sides: { kind: Column['kind']; checked: Checked }[] = [
    { kind: 'now', checked: now },
    ...(was ? [{ kind: 'was', checked: was } as const] : []),
    ...(tried ? [{ kind: 'tried', checked: tried } as const] : []),
  ];
  const columns = now.plan.flatMap(({ name, index }) =>
    sides.map(({ kind, checked }) => ({ kind, index, stage: name, plan: checked.plan })),
  );
  const units = unitsIn(now.house);
  const rowOf = (node: FigureNode): Row[] => {
    const present = now.plan.map((stage) => cellOf(stage, node));
    const cells = columns.map(({ kind, index, stage, plan }) => {
      const other = kind === 'now' ? present[index] : otherCell(plan, stage, index, node);
      return other ? shown(other, node.dimension, units, kind === 'now' ? undefined : present[index]) : null;
    });
    if (cells.every((cell) => cell === null)) return [];
    return [{ figure: node.id, name: capital(node.name), places: placesOf(node, now), cells }];
  };
  return {
    title: echo(now.sheet.values.title ?? 'Build sheet'),
    columns: columns.map(({ stage, kind }) => ({ stage: echo(stage, 40), kind })),
    topics: topics
      .map(({ heading, home }) => ({ heading, rows: figures.filter((node) => isAtHome(node, home)).flatMap(rowOf) }))
      .filter(({ rows }) => rows.length > 0),
    findings: findingsOf(now),
    questions: askedOf(now)
      .slice(0, MOST_QUESTIONS)
      .map(({ text }) => text),
    fields: fieldsOf(now.sheet.root, now.sheet.text).slice(0, MOST_FIELDS),
  };
}

/** The report's curves and drawings of a sheet. */
export function panelPlots({ plan, house }: Checked): PanelPlot[] {
  const units = unitsIn(house);
  return topics.flatMap(({ heading, curves }, topic) =>
    curves(plan).map((drawing, index) => ({
      heading,
      svg: svgOf(drawing, units, `plot-${topic}-${index}`),
      caption: captionOf(drawing),
    })),
  );
}

/** The figure of a stage in another state of the sheet: of the stage of that name, else of that number. */
function otherCell(plan: Checked['plan'], name: string, index: number, node: FigureNode): FigureCell | undefined {
  const stage = plan.find((one) => one.name === name) ?? plan[index];
  return stage && cellOf(stage, node);
}

function shown(cell: FigureCell, dimension: Dimension, units: Units, present: FigureCell | undefined): Cell {
  const { value, low, high, limit } = cell;
  const text =
    limit === undefined
      ? formatValue(value, dimension, units, (high ?? value) - (low ?? value))
      : against(value, limit.value, dimension, unitFor(value, dimension, units)).value;
  const isOther = present !== undefined && Math.abs(value - present.value) > 1e-6 * Math.abs(present.value);
  const isMissed = (limit?.margin ?? 0) < 0;
  if (!limit) return { text, isMissed, isOther };
  const words = `${limit.side} ${formatGiven(limit.value, dimension, units)}`;
  if (limit.value <= 0) return { text: `${text}, ${words}`, isMissed, isOther };
  return { text, isMissed, isOther, bar: { share: value / limit.value, limit: words } };
}

/** Where the text has the fields that a figure is at home on or computed from directly; where it has none, what is around. */
function placesOf(node: FigureNode, { plan, sheet }: Checked): Range[] {
  const known = plan.filter((stage) => isKnown(stage.see(node)));
  const inputs = known.flatMap((stage) => stage.inputsOf(node).flatMap(({ field }) => (field ? [field] : [])));
  const paths = [...node.home.map((field) => stepsOf(field)), ...inputs];
  const found = new Map<number, Range>();
  for (const path of paths) {
    const entry = entryOf(sheet, path);
    if (entry?.key && !entry.inherited) found.set(entry.key.start, { start: entry.key.start, end: entry.value.end });
  }
  return [...found.values()];
}

function findingsOf({ findings, plan, sheet }: Checked): FiguresPanel['findings'] {
  const names = (stages: readonly number[]) =>
    stages.length === plan.length ? '' : stages.map((stage) => echo(plan[stage]?.name ?? '', 40)).join(', ');
  const problems = sheet.problems.map(({ severity = 'error' as Severity, message, range }) => ({
    severity,
    message,
    stages: '',
    range,
  }));
  return [
    ...problems,
    ...findings.map(({ severity, message, stages, range }) => ({ severity, message, stages: names(stages), range })),
  ];
}

/** Every field with a value of its own. */
function fieldsOf(entry: Entry, text: string): { field: string; value: string }[] {
  if (entry.kind === 'scalar' && entry.key && !entry.inherited)
    return [{ field: pathText(entry.path), value: echo(writtenOf(entry, text)) }];
  return entry.children.flatMap((child) => fieldsOf(child, text));
}
