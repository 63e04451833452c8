import type { Repair, Settings, Situation } from '../checking/rule.ts';
import { type FieldPath, inChanges } from '../sheet/path.ts';

/** A repair that holds from this stage on: in the stage's changes, or in the sheet itself where this is the first stage. */
export function fromStageOn({ index, name }: Situation, title: string, set: Settings): Repair {
  if (index === 0) return { title, set };
  const changes = Object.entries(set).map(([path, to]) => ({ set: inChanges(index, path as FieldPath), to }));
  return { title: `In stage "${name}": ${title}`, changes };
}
