import type { Catalog as CatalogValues, Part } from '../generated/catalog.ts';
import { quoted } from '../text/echo.ts';
import type { Range } from '../text/place.ts';
import type { Catalog } from './catalog.ts';
import { editsFor } from './edit.ts';
import { childOf, type Entry, writtenOf } from './entry.ts';
import type { Problem } from './problem.ts';
import { entryOf, type Sheet } from './read.ts';
import { kinds } from './slots.ts';
import { MOST_WITHIN } from './take-over.ts';

type CatalogSheet = Sheet<CatalogValues>;

/** Most problems of a kind that are told. */
const MOST_TOLD = 100;

/** A catalog as it was read, with what is wrong with its parts beyond the schema. */
export function checkedCatalog(sheet: CatalogSheet, catalog: Catalog | undefined): CatalogSheet {
  if (sheet.root.kind !== 'map' || sheet.unread.some((path) => path.length === 0)) return sheet;
  const parts = entryOf(sheet, ['parts'])?.children ?? [];
  const kits = entryOf(sheet, ['kits'])?.children ?? [];
  const own = [
    ...parts.flatMap((entry) => partProblems(sheet, entry)).slice(0, MOST_TOLD),
    ...(catalog ? doubleIds(sheet, catalog) : []),
    ...circles(sheet, kits),
  ];
  return own.length > 0 ? { ...sheet, problems: [...sheet.problems, ...own] } : sheet;
}

const sound = new WeakMap<object, boolean>();

/** Looked at once a version of the part's text. */
function partProblems(sheet: CatalogSheet, entry: Entry): Problem[] {
  if (entry.part && sound.get(entry.part)) return [];
  const found = [...kindProblems(sheet, entry), ...placeProblems(sheet, entry)];
  if (entry.part && found.length === 0) sound.set(entry.part, true);
  return found;
}

function kindProblems(sheet: CatalogSheet, entry: Entry): Problem[] {
  const id = childOf(entry, 'id');
  if (!id || entry.kind !== 'map') return [];
  const named = entry.children.filter(({ path }) => (kinds as readonly unknown[]).includes(path.at(-1)));
  if (named.length === 1) return [];
  const name = quoted(writtenOf(id, sheet.text));
  const message =
    named.length === 0
      ? `${name} does not say what it is: add a section such as "pump" or "line".`
      : `${name} says to be ${named.length} kinds of part: leave one of ${named.map(({ path }) => quoted(String(path.at(-1)))).join(', ')}.`;
  return [{ code: 'catalog/kind-missing', message, range: named[1]?.key ?? id.value, fixes: [] }];
}

/** Name, cost and `use` inside the section of a part. */
function placeProblems(sheet: CatalogSheet, entry: Entry): Problem[] {
  const sections = entry.children.filter(({ path }) => (kinds as readonly unknown[]).includes(path.at(-1)));
  const inner = sections.flatMap(({ children }) => children);
  return inner.flatMap((field): Problem[] => {
    const name = String(field.path.at(-1)) as keyof Part;
    if (name !== 'name' && name !== 'cost' && (name as string) !== 'use') return [];
    const message =
      (name as string) === 'use'
        ? 'A part of a catalog takes over no other part.'
        : `Write ${quoted(name)} beside the id of the part; what stands here does not count.`;
    const edits = editsFor(sheet, [{ remove: field.path }]);
    const fixes = edits ? [{ title: `Take ${quoted(name)} out`, edits, preferred: false }] : [];
    return [{ code: 'catalog/field-out-of-place', message, range: field.key ?? field.value, fixes }];
  });
}

function doubleIds(sheet: CatalogSheet, catalog: Catalog): Problem[] {
  const isHere = ({ end }: Range) => end <= sheet.text.length;
  return catalog.twice().flatMap(({ id, ranges }) =>
    ranges.slice(1).map((range): Problem => {
      const related = ranges.filter((other) => other !== range && isHere(other)).slice(0, 5);
      return {
        code: 'catalog/double-id',
        message: `The id ${quoted(id)} is given ${ranges.length} times; only the first counts.`,
        range,
        fixes: [],
        related: related.map((other) => ({ range: other, message: `Also called ${quoted(id)}.` })),
      };
    }),
  );
}

/** Kits that hold themselves by way of others of the same catalog. */
function circles(sheet: CatalogSheet, kits: readonly Entry[]): Problem[] {
  const byId = new Map(
    (sheet.values.kits ?? []).flatMap((kit) => (kit.id === undefined ? [] : [[kit.id, kit.kits ?? []] as const])),
  );
  return kits.flatMap((entry): Problem[] => {
    const id = childOf(entry, 'id');
    const name = id && writtenOf(id, sheet.text);
    const way = name === undefined ? undefined : wayBack(name, byId);
    if (!id || !way) return [];
    const message = `Kit ${way.map((one) => quoted(one)).join(' holds ')}: a kit cannot hold itself.`;
    return [{ code: 'catalog/kit-cycle', message, range: id.value, fixes: [] }];
  });
}

/** The way from a kit by those it holds back to itself, if there is one. */
function wayBack(id: string, byId: ReadonlyMap<string, readonly string[]>): string[] | undefined {
  const seen = new Set<string>();
  const walk = (one: string, way: readonly string[]): string[] | undefined => {
    for (const inner of byId.get(one) ?? []) {
      if (inner === id) return [...way, one, id];
      if (seen.has(inner) || way.length > MOST_WITHIN) continue;
      seen.add(inner);
      const found = walk(inner, [...way, one]);
      if (found) return found;
    }
    return undefined;
  };
  return walk(id, []);
}
