import type { StageAnalysis } from '../analysis/analysis.ts';
import { capital, withSpread } from '../analysis/figure-words.ts';
import { echo } from '../text/echo.ts';
import { formatValue, type Units } from '../units/format.ts';
import type { Dimension } from '../units/units.ts';
import { figureTable } from './model.ts';

/** Every figure in every stage as a line of its own, so that two states of a sheet can be compared by lines. */
export function figureLines(plan: readonly StageAnalysis[], units: Units): string[] {
  const show = (value: number, dimension: Dimension) => formatValue(value, dimension, units);
  return figureTable(plan).flatMap(({ name, dimension, stages }) =>
    stages.flatMap((cell, index) => {
      if (!cell) return [];
      const limit = cell.limit ? ` (${cell.limit.side} ${show(cell.limit.value, dimension)})` : '';
      const stage = echo(plan[index]?.name ?? '');
      return [`${capital(name)}, ${stage}: ${withSpread({ ...cell, dimension }, show)}${limit}`];
    }),
  );
}
