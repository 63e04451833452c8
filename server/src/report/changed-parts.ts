import { type Differing, differing, type IsSame } from '../sheet/differing.ts';
import type { Sheet } from '../sheet/read.ts';
import { emptyShelf, type Shelf } from '../sheet/shelf.ts';

/** A part or kit that the catalogs describe otherwise now, and in what. */
export type ChangedPart = { list: 'part' | 'kit'; id: string; fields: readonly Differing[] };

/** The parts and kits of a sheet that the catalogs describe otherwise than before. */
export function changedParts(before: Sheet, after: Sheet, isSame: IsSame): ChangedPart[] {
  const [old, now] = [shelfOf(before), shelfOf(after)];
  const changed = (list: ChangedPart['list'], id: string, was: unknown, is: unknown): ChangedPart[] => {
    const fields = differing(was, is, isSame);
    return fields.length > 0 ? [{ list, id, fields }] : [];
  };
  return [...idsIn(after)].flatMap((id) => [
    ...changed('part', id, old.part(id)?.fields, now.part(id)?.fields),
    ...changed('kit', id, old.kit(id), now.kit(id)),
  ]);
}

/**
 * The shelf of the later sheet with what some ids stood for before. What only the earlier sheet names is as it was, so that
 * a part that was replaced can be put back after the catalog has lost it.
 */
export function shelfWith(ids: ReadonlySet<string>, before: Sheet, after: Sheet): Shelf {
  const [old, now, named] = [shelfOf(before), shelfOf(after), idsIn(after)];
  const lookedUp = <T>(id: string, look: (shelf: Shelf) => T | undefined) => {
    if (ids.has(id)) return look(old);
    return look(now) ?? (named.has(id) ? undefined : look(old));
  };
  return {
    ...emptyShelf,
    isEmpty: now.isEmpty && old.isEmpty,
    today: now.today,
    part: (id) => lookedUp(id, (shelf) => shelf.part(id)),
    kit: (id) => lookedUp(id, (shelf) => shelf.kit(id)),
  };
}

/** The values of a sheet as its text has them, without those of the parts it names. */
export function ownValues({ parts, values }: Sheet): Sheet['values'] {
  return parts?.own ?? values;
}

function shelfOf({ parts }: Sheet): Shelf {
  return parts?.shelf ?? emptyShelf;
}

/** Every part and kit that a sheet takes over, by id, with the kits within kits. */
function idsIn({ parts }: Sheet): Set<string> {
  const ids = new Set((parts?.taken ?? []).map(({ id }) => id));
  const enter = (id: string) => {
    if (ids.has(id)) return;
    ids.add(id);
    for (const inner of parts?.shelf.kit(id)?.kits ?? []) enter(inner);
  };
  for (const { id } of parts?.kits ?? []) enter(id);
  return ids;
}
