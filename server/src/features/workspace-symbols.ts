import { childOf, innerRange, isUnknown, writtenOf } from '../sheet/entry.ts';
import { echo } from '../text/echo.ts';
import type { Range } from '../text/place.ts';
import type { NamedText, NameKind } from './names/name-kind.ts';
import { nameKinds } from './names/names.ts';
import { partIdsIn } from './part-ids.ts';

/** A sheet by its title, or something that is named in it. */
export type NamedThing = { name: string; kind: 'sheet' | 'part' | NameKind['id']; range: Range; container: string };

/** Most names of one text, so that a very long one does not drown the others. */
const MOST = 200;

/** What can be gone to by its name in a text: its title, and what is named in it. */
export function namedThings(sheet: NamedText): NamedThing[] {
  const title = childOf(sheet.root, 'title');
  const isTitled = title?.kind === 'scalar' && !isUnknown(title);
  const name = isTitled ? echo(writtenOf(title, sheet.text)) : '';
  const given = nameKinds.flatMap((kind) =>
    kind
      .occurrences(sheet)
      .filter(({ role }) => role === 'given')
      .map((one) => ({ name: echo(one.name), kind: kind.id, range: one.range, container: name })),
  );
  const own =
    isTitled && name ? [{ name, kind: 'sheet' as const, range: innerRange(title, sheet.text), container: '' }] : [];
  return [...own, ...given].slice(0, MOST);
}

/** Most parts of one catalog. */
const MOST_PARTS = 6000;

/** The parts and kits of a catalog, by their ids. */
export function namedParts(sheet: NamedText): NamedThing[] {
  const shop = childOf(sheet.root, 'shop');
  const container = shop?.kind === 'scalar' ? echo(writtenOf(shop, sheet.text)) : '';
  const given = partIdsIn('catalog', sheet).filter(({ isGiven }) => isGiven);
  return given.slice(0, MOST_PARTS).map(({ id, range }) => ({ name: echo(id), kind: 'part', range, container }));
}

/** Whether the letters of a query stand in a name in their order. */
export function matches(name: string, query: string): boolean {
  const letters = name.toLowerCase();
  let at = 0;
  for (const letter of query.toLowerCase().replaceAll(/\s/g, '')) {
    at = letters.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
