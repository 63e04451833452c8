import type { StageAnalysis } from '../analysis/analysis.ts';
import { capital, withSpread } from '../analysis/figure-words.ts';
import { derivation } from '../report/figure-text.ts';
import { type Block, type Page, paragraph, type Span } from '../report/page.ts';
import { type Entry, pathText } from '../sheet/entry.ts';
import { echo } from '../text/echo.ts';
import { formatValue, type Units } from '../units/format.ts';
import type { Dimension } from '../units/units.ts';
import { describedEntry, figureIds, missingAt, stagesFor } from './described.ts';

/** All that is computed of a field, with every step of it, and what it is called. */
export type Work = { title: string; page: Page };

/** The figures of the field at an offset in every stage, and how each came about in the hungriest; nothing where there are none. */
export function workAt(root: Entry, offset: number, plan: readonly StageAnalysis[], units: Units): Work | undefined {
  const entry = describedEntry(root, offset);
  if (!entry?.schema) return undefined;
  const page = figuresOf(entry, plan, units);
  const title = entry.schema.title ?? String(entry.path.at(-1));
  return page.length
    ? { title, page: [paragraph({ strong: title }, ' ', { code: echo(pathText(entry.path), 120) }), ...page] }
    : undefined;
}

function figuresOf(entry: Entry, plan: readonly StageAnalysis[], units: Units): Block[] {
  const stages = stagesFor(entry.path, plan);
  const ids = figureIds(entry, stages);
  const known = stages.map(({ figures }) => figures);
  const show = (value: number, dimension: Dimension, spread?: number) => formatValue(value, dimension, units, spread);
  const rows = ids.flatMap((id) => {
    const figures = known.map((stage) => stage.get(id));
    const named = figures.find((figure) => figure !== undefined);
    return named ? [[capital(named.name), ...figures.map((figure) => (figure ? withSpread(figure, show) : '-'))]] : [];
  });
  const hungriest = stages.toSorted((one, other) => demand(other) - demand(one))[0];
  const isStage = entry.path[0] === 'stages' && entry.path.length === 2;
  const byHunger = (hungriest ? [hungriest, ...stages] : []).map(({ figures }) => figures);
  const explained = isStage ? new Set([...ids, ...(byHunger[0]?.keys() ?? [])]) : ids;
  const work = [...explained]
    .flatMap((id) => byHunger.find((figures) => figures.has(id))?.get(id) ?? [])
    .flatMap((figure) => derivation(figure, units));
  const missing = missingBlocks(entry, stages, units);
  if (work.length === 0) return missing;
  const where = stages.length > 1 ? `, stage "${echo(hungriest?.name ?? '')}"` : '';
  const head = ['figure', ...stages.map(({ name }) => echo(name))];
  const table: Block[] = rows.length > 0 ? [{ kind: 'table', head, rows }] : [];
  return [...table, ...missing, { kind: 'divider' }, paragraph(`The work${where}:`), ...work];
}

function demand(stage: StageAnalysis): number {
  return stage.figures.get('demand-by-power')?.value ?? 0;
}

function missingBlocks(entry: Entry, stages: readonly StageAnalysis[], units: Units): Block[] {
  const items = missingAt(entry, stages, units).map(({ name, lacks, impossible }): Span[] => {
    if (impossible) return [`${capital(name)}: ${impossible}`];
    const needs = lacks.flatMap((need, index): Span[] => [index ? ', ' : '', { code: need }]);
    return [`${capital(name)} needs `, ...needs];
  });
  return items.length ? [paragraph('Not computed:'), { kind: 'list', items }] : [];
}
