import { analyze } from '../analysis/analysis.ts';
import { figureNamed } from '../analysis/figures.ts';
import { headlines } from '../analysis/headlines.ts';
import type { Checked } from '../checking/checked.ts';
import { changedValues } from '../sheet/changed.ts';
import type { Change } from '../sheet/edit.ts';
import { makesSense } from '../sheet/makes-sense.ts';
import { type FieldPath, inStage, stepsOf, valueAt } from '../sheet/path.ts';
import { usualRange } from '../sheet/usual-range.ts';
import type { Build } from './build.ts';
import { completed } from './completed.ts';

/** The figures a build is judged by. */
const { stages: ids = [] } = headlines;
const main = ids.flatMap((id) => figureNamed(id) ?? []);

/**
 * How far each of the fields moves the main figures over the range it usually has: the sum, over those figures, of the
 * difference as a share of the larger end, in the stage where that is most. What else the sheet does not say is as usual.
 */
export function movesOf(checked: Checked, fields: readonly FieldPath[]): ReadonlyMap<FieldPath, number> {
  const build = completed(checked);
  return new Map(
    fields.flatMap((field) => {
      const range = usualRange(field);
      const [low, high] = range ? [range.from, range.to].map((end) => figuresWith(checked, build, field, end)) : [];
      return low && high ? [[field, moved(low, high)] as const] : [];
    }),
  );
}

/** The main figures of every stage with a field at a value wherever the sheet does not give it. */
function figuresWith(
  { sheet }: Checked,
  build: Build,
  field: FieldPath,
  to: string,
): (number | undefined)[] | undefined {
  const changes = build.plan.flatMap(({ index, sheet: stage }): Change[] => {
    if (!field.startsWith('stages.')) return index === 0 ? [{ set: stepsOf(field), to }] : [];
    const isGiven = valueAt(sheet.values.stages?.[index], stepsOf(field), 1) !== undefined;
    return isGiven || makesSense(field, stage) === false ? [] : [{ set: inStage(index, field), to }];
  });
  const values = changes.length > 0 ? changedValues(build.values, changes) : undefined;
  const plan = values && analyze(values, build.house, build.plan, build.unread, build.assumed);
  return plan?.flatMap((stage) => main.map((node) => stage.estimate(node)?.value));
}

function moved(low: readonly (number | undefined)[], high: readonly (number | undefined)[]): number {
  const most = main.map(() => 0);
  low.forEach((one, index) => {
    const other = high[index];
    if (one === undefined || other === undefined || one === other) return;
    const share = Math.abs(one - other) / Math.max(Math.abs(one), Math.abs(other));
    const figure = index % main.length;
    most[figure] = Math.max(most[figure] ?? 0, Math.min(1, share));
  });
  return most.reduce((sum, one) => sum + one, 0);
}
