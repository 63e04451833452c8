import type { StageAnalysis } from '../analysis/analysis.ts';
import { pathText } from '../sheet/entry.ts';
import { pathOf } from './place.ts';

/** The stages that take a field from the same place in the text as the one with this number: they share the part. */
export function sharing(plan: readonly StageAnalysis[], index: number, path: string): StageAnalysis[] {
  const placeIn = (stage: StageAnalysis | undefined) => pathText(stage?.place(pathOf(path)) ?? []);
  return plan.filter((stage) => placeIn(stage) === placeIn(plan[index]));
}
