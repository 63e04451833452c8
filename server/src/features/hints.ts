import type { StageAnalysis } from '../analysis/analysis.ts';
import { figureNamed } from '../analysis/figures.ts';
import { headlines } from '../analysis/headlines.ts';
import type { Checked } from '../checking/checked.ts';
import { type FigureCell, figureRow } from '../report/model.ts';
import { childOf, type Entry } from '../sheet/entry.ts';
import { unitsIn } from '../sheet/house.ts';
import { entryOf, type Sheet } from '../sheet/read.ts';
import { echo } from '../text/echo.ts';
import { type Range, touches } from '../text/place.ts';
import { against } from '../units/digits.ts';
import { type Units, unitFor } from '../units/format.ts';
import type { Dimension } from '../units/units.ts';
import { homePath, stagesFor } from './described.ts';
import { fieldLines, tellingFigures } from './part-figures.ts';

/** A word in the text that is not written there, and what it stands for in full. */
export type Hint = { offset: number; text: string; more: string };

/** Most hints of one answer. */
const MOST = 100;

/** Beside each part the figure that is nearest to its limit, or farthest beyond it, over the stages; beside `use` the part. */
export function hintsIn({ sheet, plan, house }: Checked, range: Range): Hint[] {
  const hints: Hint[] = usesIn(sheet).filter(({ offset }) => touches({ start: offset, end: offset }, range));
  const look = (entry: Entry) => {
    if (hints.length >= MOST || entry.inherited) return;
    const hint = hintAt(entry, plan, unitsIn(house));
    if (hint && touches({ start: hint.offset, end: hint.offset }, range)) hints.push(hint);
    entry.children.forEach(look);
  };
  sheet.root.children.forEach(look);
  return hints;
}

/** Beside the id of each part that the sheet takes over the figures that tell most about it. */
function usesIn({ parts, root }: Sheet): Hint[] {
  const named = parts?.taken.filter(({ kit }) => kit === undefined) ?? [];
  return named.flatMap(({ part, place }) => {
    const entry = entryOf({ root }, place);
    const figures = part ? tellingFigures(part) : [];
    if (!part || !entry || entry.inherited || figures.length === 0) return [];
    const text = [part.name, ...figures].flatMap((one) => (one === undefined ? [] : echo(one, 40))).join(', ');
    return [{ offset: entry.value.end, text, more: fieldLines(part.fields).join('\n') }];
  });
}

function hintAt(entry: Entry, plan: readonly StageAnalysis[], units: Units): Hint | undefined {
  const place = placeOf(entry);
  const ids = headlines[homePath(entry.path)];
  if (!place || !ids || entry.path.join() === 'stages') return undefined;
  const stages = stagesFor(entry.path, plan);
  const cells = ids.flatMap((id) => cellsOf(id, stages));
  const [nearest, ...others] = cells.toSorted((one, other) => one.share - other.share);
  if (!nearest) return undefined;
  const text = (cell: Held) => textOf(cell, units, stages.length > 1);
  return { offset: place.end, text: text(nearest), more: [nearest, ...others].slice(0, 6).map(text).join('\n') };
}

/** Behind the name of a part, or of a stage. */
function placeOf(entry: Entry): Range | undefined {
  if (entry.path[0] === 'stages' && entry.path.length === 2) return childOf(entry, 'name')?.value;
  return entry.kind === 'map' && entry.key ? { start: entry.key.start, end: entry.key.end + 1 } : undefined;
}

/** A figure held against a limit in one stage, and how far from it, as a share of the limit. */
type Held = {
  name: string;
  stage: string;
  dimension: Dimension;
  cell: FigureCell;
  limit: NonNullable<FigureCell['limit']>;
  share: number;
};

function cellsOf(id: string, stages: readonly StageAnalysis[]): Held[] {
  const node = figureNamed(id);
  const row = node && figureRow(node, stages);
  if (!row) return [];
  return row.stages.flatMap((cell, index) => {
    const { limit } = cell ?? {};
    if (!cell || !limit) return [];
    const share = limit.margin / (Math.abs(limit.value) || 1);
    const { name, dimension } = row;
    return [{ name, dimension, stage: stages[index]?.name ?? '', cell, limit, share }];
  });
}

/** The numbers come first: an editor cuts a long hint off. */
function textOf({ name, stage, dimension, cell, limit }: Held, units: Units, isOneOfSeveral: boolean): string {
  const shown = against(cell.value, limit.value, dimension, unitFor(cell.value, dimension, units));
  const where = isOneOfSeveral ? ` in ${echo(stage, 30)}` : '';
  return `${shown.value}, ${limit.side} ${shown.limit}: ${name}${where}`;
}
