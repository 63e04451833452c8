import { type Checked, checkSheet } from '../checking/checked.ts';
import type { Rule } from '../checking/rule.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import type { Catalog as CatalogValues } from '../generated/catalog.ts';
import { validateCatalog, validateSheet } from '../generated/validate.js';
import { Catalog } from '../sheet/catalog.ts';
import { checkedCatalog } from '../sheet/catalog-check.ts';
import { ofFolder } from '../sheet/house.ts';
import { MOST_CATALOG } from '../sheet/parse.ts';
import type { Sheet } from '../sheet/read.ts';
import { Reader } from '../sheet/reader.ts';
import { catalogRoot, root } from '../sheet/schema.ts';
import type { Shelf } from '../sheet/shelf.ts';
import { byItems } from '../sheet/validate-items.ts';
import { isUpToDate, withParts } from '../sheet/with-parts.ts';
import { readHouse } from '../workspace/house-file.ts';
import { type OpenText, Workspace } from '../workspace/workspace.ts';

/**
 * What is known of an open text: its newest version, and of an earlier one what the next check starts from. `taken`: when the
 * catalogs were last looked at for it.
 */
type Memory = {
  text: OpenText;
  reader: Reader<BuildSheet>;
  sheet: Sheet;
  checked?: { of: Sheet; taken: number; check: Checked };
  earlier?: Checked;
};

/** What is known of an open catalog. */
type CatalogMemory = { text: OpenText; reader: Reader<CatalogValues>; sheet: Sheet<CatalogValues> };

export function catalogReader(): Reader<CatalogValues> {
  return new Reader<CatalogValues>(catalogRoot, byItems(validateCatalog, ['parts', 'kits']), MOST_CATALOG);
}

export function sheetReader(): Reader<BuildSheet> {
  return new Reader<BuildSheet>(root, validateSheet);
}

/** The open texts of a workspace; each version is read once and checked once, when first asked for. */
export class Texts {
  private readonly memories = new Map<string, Memory>();
  private readonly catalogs = new Map<string, CatalogMemory>();
  readonly workspace: Workspace;

  constructor(
    private readonly rules: readonly Rule[],
    private readonly known: ReadonlySet<string>,
  ) {
    this.workspace = new Workspace(known);
  }

  /** Forgets a text that is no longer open. */
  close(uri: string): void {
    this.workspace.close(uri);
    this.memories.delete(uri);
    this.catalogs.delete(uri);
  }

  /** A text as it is read, whatever it is. */
  reading(text: OpenText): Sheet<unknown> {
    if (text.kind === 'house') return this.house(text);
    return text.kind === 'catalog' ? this.catalog(text) : this.memory(text).sheet;
  }

  /** House rules or a catalog as another text of it would be read. */
  readingOf(text: OpenText, changed: string): Sheet<unknown> {
    if (text.kind === 'house') return readHouse(changed, this.known);
    this.catalog(text);
    const reader = this.catalogs.get(text.uri)?.reader.fork();
    return reader ? checkedCatalog(reader.read(changed), new Catalog(changed)) : this.reading(text);
  }

  /** A sheet as it is read. */
  sheet(text: OpenText): Sheet {
    return this.memory(text).sheet;
  }

  /** House rules as they are read. */
  house(text: OpenText) {
    const file = this.workspace.houseAt(text.uri);
    return file && 'sheet' in file ? file.sheet : readHouse(text.text, this.known);
  }

  /** Reads texts that are only tried, with the parts of the house or those of another shelf. */
  trying(text: OpenText): (changed: string, other?: Shelf) => Sheet {
    const memory = this.memory(text);
    const { shelf } = this.workspace.houseFor(text.uri).house;
    return (changed, other = shelf) => withParts(memory.reader.fork().read(changed), other);
  }

  /** The newest check of a sheet; nothing for what is no sheet. */
  checkedAt(uri: string): Checked | undefined {
    const text = this.workspace.get(uri);
    return text?.kind === 'sheet' ? this.checked(text) : undefined;
  }

  /** The check of a sheet that was made last, if one was, of this version or an earlier one. */
  lastChecked(uri: string): Checked | undefined {
    return this.memories.get(uri)?.checked?.check;
  }

  /** The newest check of a sheet. */
  checked(text: OpenText): Checked {
    const memory = this.memory(text);
    const { house } = this.workspace.houseFor(text.uri);
    const { stocktaking } = this.workspace;
    const { checked } = memory;
    const isNewest = checked?.of === memory.sheet && ofFolder(checked.check.house) === house;
    if (isNewest && (checked.taken === stocktaking || isUpToDate(checked.check.sheet))) {
      checked.taken = stocktaking;
      return checked.check;
    }
    const check = checkSheet(memory.sheet, house, checked?.check, this.rules);
    memory.checked = { of: memory.sheet, taken: stocktaking, check };
    return check;
  }

  /** Another text of a sheet, such as an earlier one, checked as if it stood there; the last one asked for is kept. */
  earlier(text: OpenText, before: string): Checked {
    const now = this.checked(text);
    if (before === now.sheet.text) return now;
    const memory = this.memory(text);
    const { earlier } = memory;
    const isSame = earlier?.sheet.text === before && ofFolder(earlier.house) === ofFolder(now.house);
    if (isSame && isUpToDate(earlier.sheet)) return earlier;
    memory.earlier = checkSheet(this.trying(text)(before), ofFolder(now.house), now, this.rules);
    return memory.earlier;
  }

  private catalog(text: OpenText): Sheet<CatalogValues> {
    const known = this.catalogs.get(text.uri);
    if (known?.text === text) return known.sheet;
    const reader = known?.reader ?? catalogReader();
    const sheet = checkedCatalog(reader.read(text.text), this.workspace.catalogs.at(text.uri));
    this.catalogs.set(text.uri, { text, reader, sheet });
    return sheet;
  }

  private memory(text: OpenText): Memory {
    const known = this.memories.get(text.uri);
    if (known?.text === text) return known;
    const reader = known?.reader ?? sheetReader();
    const memory = { ...known, text, reader, sheet: reader.read(text.text) };
    this.memories.set(text.uri, memory);
    return memory;
  }
}
