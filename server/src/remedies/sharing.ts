import type { Situation } from '../checking/rule.ts';
import { pathText } from '../sheet/entry.ts';
import type { FieldPath } from '../sheet/path.ts';

/** The stages that take a field from the same place in the text as the one with this number: they share the part. */
export function sharing(plan: readonly Situation[], index: number, path: FieldPath): Situation[] {
  const placeIn = (stage: Situation | undefined) => pathText(stage?.placeOf(path) ?? []);
  return plan.filter((stage) => placeIn(stage) === placeIn(plan[index]));
}
