import { editsFor } from '../sheet/edit.ts';
import { difference } from '../text/difference.ts';
import type { TextEdit } from '../text/place.ts';
import { addressIn, fileName } from '../workspace/address.ts';
import { homeOf } from '../workspace/house-folders.ts';
import { HOUSE_FILES } from '../workspace/kind.ts';
import type { Workspace } from '../workspace/workspace.ts';

/** A change of a file, which is begun with a text where it is not there yet. */
export type FileChange = { uri: string; begins: boolean; edits: readonly TextEdit[] };

/** The name of the first catalog of a shop. */
const FIRST_CATALOG = 'shop.parts.yaml';

/** Where a catalog may be begun for a sheet that has none: beside the house rules, else beside the sheet. */
export function newCatalogFor(workspace: Workspace, uri: string): string | undefined {
  if (workspace.catalogsOf(uri).length > 0) return undefined;
  const house = workspace.nearestHouse(uri)?.at;
  const search = workspace.searchFor(uri);
  if (!search) {
    const folder = homeOf(house ?? uri);
    return uri.startsWith('file:') && folder !== undefined ? addressIn(folder, FIRST_CATALOG) : undefined;
  }
  const [pattern = ''] = search.patterns;
  const path = pattern.replaceAll('**/', '').replace('*', 'shop').replace('{yaml,yml}', 'yaml');
  const isPlain = /\.parts\.ya?ml$/.test(path) && !/[*?{}[\]!\\]|\.\.|^\//.test(path);
  return isPlain ? path.split('/').reduce(addressIn, search.folder) : undefined;
}

/** The change of the house rules, or the new ones, that name a catalog; none where they find it already. */
export function namingInHouse(workspace: Workspace, uri: string, catalog: string): FileChange[] | undefined {
  if (workspace.searchFor(uri)) return [];
  const name = fileName(catalog);
  const house = workspace.nearestHouse(uri);
  if (!house) {
    const folder = homeOf(catalog);
    if (folder === undefined) return undefined;
    const text = `catalogs: [${JSON.stringify(name)}]\n`;
    return [{ uri: addressIn(folder, HOUSE_FILES[0]), begins: true, edits: difference('', text) }];
  }
  if (!('sheet' in house.file) || house.file.sheet.broken) return undefined;
  const edits = editsFor(house.file.sheet, [{ set: ['catalogs'], to: [name] }]);
  return edits && [{ uri: house.at, begins: false, edits }];
}
