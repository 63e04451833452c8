import type { NewValue } from '../sheet/edit.ts';
import type { Repair, Situation } from './rule.ts';

/** A repair that holds from this stage on: in the stage's changes, or in the sheet itself where this is the first stage. */
export function fromStageOn({ index, name }: Situation, title: string, set: Record<string, NewValue>): Repair {
  if (index === 0) return { title, set };
  const inChanges = Object.entries(set).map(([path, to]) => [`stage.changes.${path}`, to]);
  return { title: `In stage "${name}": ${title}`, set: Object.fromEntries(inChanges) };
}
