import type { Checked } from '../checking/checked.ts';
import { Catalog } from '../sheet/catalog.ts';
import { differing, isWrittenTheSame } from '../sheet/differing.ts';
import { entryAt, pathText } from '../sheet/entry.ts';
import { extracted, withItem } from '../sheet/extract.ts';
import { unchanged, valueAt } from '../sheet/path.ts';
import type { Sheet } from '../sheet/read.ts';
import { emptyShelf, type Shelf } from '../sheet/shelf.ts';
import { type Slot, slotAround } from '../sheet/slots.ts';
import { difference } from '../text/difference.ts';
import { quoted } from '../text/echo.ts';
import type { Range } from '../text/place.ts';
import { fileName } from '../workspace/address.ts';
import type { Workspace } from '../workspace/workspace.ts';
import { type FileChange, namingInHouse } from './new-catalog.ts';

/** What a sheet says of a part, made a part of a catalog: the changes of the sheet, the catalog, and the house rules. */
export type Extraction = { title: string; files: readonly FileChange[] };

/** Where it is asked for, and how a text of the sheet is read with the parts of a shelf. */
type Asked = {
  uri: string;
  checked: Checked;
  range: Range;
  workspace: Workspace;
  read: (text: string, shelf?: Shelf) => Sheet;
  readCatalog: (text: string) => Sheet<unknown>;
};

/** So many catalogs are offered. */
const MOST_CATALOGS = 4;

/**
 * Ways to make the section at a place one of the parts of each catalog that holds for the sheet, or of a new one at an address
 * where none does. Only what leaves every value of the sheet as it is.
 */
export function extractionsAt(asked: Asked, newCatalog: string | undefined): Extraction[] {
  const { uri, checked, range, workspace, read } = asked;
  const { path } = entryAt(checked.sheet.root, range.start);
  const slot = slotAround(path);
  if (!slot || checked.sheet.broken || unchanged(path).stage >= 0) return [];
  const id = newId(checked, slot);
  const made = extracted(checked.sheet, slot, id, read);
  if (!made) return [];
  const inSheet = { uri, begins: false, edits: difference(checked.sheet.text, made.text) };
  const into = (catalog: Target): Extraction[] => {
    const after = catalogWith(asked, catalog, made.item);
    if (after === undefined || !holds(asked, slot, id, made.text, after)) return [];
    const begins = catalog.text === undefined;
    const title = `Make it the part ${quoted(id)} of ${begins ? 'a new catalog, ' : ''}${quoted(fileName(catalog.uri))}`;
    const inCatalog = { uri: catalog.uri, begins, edits: difference(catalog.text ?? '', after) };
    return [{ title, files: [inCatalog, ...catalog.naming, inSheet] }];
  };
  return targetsOf(workspace, uri, newCatalog).flatMap(into);
}

/** A catalog a part may go into, its text if it is there, and what makes the house rules name it. */
type Target = { uri: string; text: string | undefined; naming: readonly FileChange[] };

function targetsOf(workspace: Workspace, uri: string, newCatalog: string | undefined): Target[] {
  const known = workspace.catalogsOf(uri).slice(0, MOST_CATALOGS);
  if (known.length > 0)
    return known.flatMap((catalog) => {
      const text = workspace.textAt(catalog);
      return text === undefined ? [] : [{ uri: catalog, text, naming: [] }];
    });
  const naming = newCatalog && namingInHouse(workspace, uri, newCatalog);
  return naming ? [{ uri: newCatalog, text: undefined, naming }] : [];
}

/** The text of a catalog with one more part; nothing where more would be wrong with it. */
function catalogWith({ readCatalog }: Asked, { text = '' }: Target, item: string): string | undefined {
  const before = readCatalog(text);
  const after = before.broken ? undefined : withItem(before, item, readCatalog);
  return after !== undefined && readCatalog(after).problems.length <= before.problems.length ? after : undefined;
}

/** An id by the name of the part, else by its slot, that no catalog has yet. */
function newId({ sheet, house: { shelf = emptyShelf } }: Checked, slot: Slot): string {
  const name = valueAt(sheet.values, [...slot.path, 'name']);
  const plain = (typeof name === 'string' ? name : '').normalize('NFKD').toLowerCase();
  const id =
    plain
      .replaceAll(/[^a-z0-9.]+/g, '-')
      .slice(0, 40)
      .replaceAll(/^[-.]+|[-.]+$/g, '') || slot.name;
  const isKnown = (one: string) => shelf.part(one) !== undefined || shelf.kit(one) !== undefined;
  let free = id;
  for (let number = 2; isKnown(free); number++) free = `${id}-${number}`;
  return free;
}

/** Whether the sheet says the same with the part from the catalog, and nothing is wrong with it there. */
function holds(
  { checked: { sheet, house }, read }: Asked,
  slot: Slot,
  id: string,
  text: string,
  catalog: string,
): boolean {
  const now = read(text, shelfWith(house.shelf ?? emptyShelf, id, catalog));
  const added = ['use', 'name'].map((name) => pathText([...slot.path, name]));
  const others = differing(sheet.values, now.values, isWrittenTheSame).filter(
    ({ place }) => !added.includes(pathText(place)),
  );
  return others.length === 0 && grave(now) <= grave(sheet);
}

/** How much is wrong with a text, but for what is only worth knowing, such as a price without a day. */
function grave({ problems }: Sheet): number {
  return problems.filter(({ severity }) => severity === undefined || severity === 'warning').length;
}

/** A shelf with a part as another text of its catalog gives it. */
function shelfWith(shelf: Shelf, id: string, text: string): Shelf {
  const catalog = new Catalog(text);
  return {
    isEmpty: false,
    today: shelf.today,
    part: (one) => (one === id ? catalog.part(id) : shelf.part(one)),
    kit: (one) => shelf.kit(one),
    ofKind: (kind) => shelf.ofKind(kind),
    ids: (list) => shelf.ids(list),
    placeOf: (one, steps) => shelf.placeOf(one, steps),
    placesOf: (one) => shelf.placesOf(one),
  };
}
