import type { Change } from './edit.ts';
import { type Entry, pathText } from './entry.ts';
import { entryOf, nearestEntry } from './read.ts';
import type { Path } from './schema.ts';

/**
 * The other fields that changes of the text would change as well, because an alias or a merge key takes them from the same
 * anchored text. The team's own `x-` fields, where such texts usually stand, are not among them.
 */
export function sharedPlaces(root: Entry, changes: readonly Change[]): Path[] {
  const targets = changes.map((change) => ('set' in change ? change.set : change.remove));
  const own = new Set(targets.map(pathText));
  const found = new Map<string, Path>();
  for (const target of targets) {
    for (const path of sharing(root, target)) {
      if (!own.has(pathText(path)) && !String(path[0]).startsWith('x-')) found.set(pathText(path), path);
    }
  }
  return [...found.values()];
}

/** A field that is there is replaced where it stands; one that is not is written into the text of the fields around it. */
function sharing(root: Entry, target: Path): Path[] {
  const own = entryOf({ root }, target);
  if (own?.inherited) return [];
  if (own)
    return matching(
      root,
      (entry) => entry.path !== own.path && entry.value.start === own.value.start && entry.kind === own.kind,
    );
  const around = nearestEntry({ root }, target);
  const starts = new Set(around.children.flatMap(({ key, inherited }) => (key && !inherited ? [key.start] : [])));
  const steps = target.slice(around.path.length);
  const parents = matching(root, (entry) => {
    if (entry.path === around.path || entry.kind !== 'map') return false;
    return (
      textOf(entry) === textOf(around) ||
      entry.children.some(({ key, inherited }) => inherited && key && starts.has(key.start))
    );
  });
  return parents.map((path) => [...path, ...steps]);
}

/** Where the text of an entry stands, whether it is written there or taken over. */
function textOf({ anchored, value }: Entry): number {
  return (anchored ?? value).start;
}

function matching(root: Entry, fits: (entry: Entry) => boolean): Path[] {
  return [...(fits(root) ? [root.path] : []), ...root.children.flatMap((inner) => matching(inner, fits))];
}
