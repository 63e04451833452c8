import type { Catalog as CatalogValues, Kit, Part } from '../generated/catalog.ts';
import { validateCatalog } from '../generated/validate.js';
import type { Range } from '../text/place.ts';
import { TooLarge } from './compose.ts';
import { type Cut, cutsOf, inEveryStretch } from './cuts.ts';
import { childOf, type Entry } from './entry.ts';
import { itemIds } from './item-ids.ts';
import { MOST_CATALOG } from './parse.ts';
import { entryOf, nearestEntry, readText } from './read.ts';
import { catalogRoot } from './schema.ts';
import type { ShelfKit, ShelfPart } from './shelf.ts';
import { kinds, type PartKind } from './slots.ts';

type List = 'parts' | 'kits';

/** Most ids given twice that are told, and most places of each. */
const MOST_TOLD = 20;

/** Items that are read at once, where many are wanted. */
const AT_ONCE = 64;

/** What was read of an item: its values and, where it was looked for, its entry as if the item stood at the head of its list. */
type Read = { values: unknown; entry?: Entry | undefined; part?: ShelfPart | undefined };

/** An item of a catalog, which is read when it is asked for. */
type Item = { id: string; text: string; start: number; stretch: object; whole?: Read };

/**
 * A version of a catalog: its ids are looked for by lines, a part is read when it is asked for. A part whose text stood in
 * the version before is not read again.
 */
export class Catalog {
  private readonly lists: Record<List, readonly Item[]>;
  private readonly byId: Record<List, Map<string, Item>>;
  /** What was read of items, in this version or in those before. */
  private readonly read: WeakMap<object, Read>;
  private readonly ofKinds = new Map<PartKind, readonly ShelfPart[]>();
  private readonly quoted: string | undefined;

  constructor(
    readonly text: string,
    before?: Catalog,
  ) {
    this.quoted = quotedIn(text);
    this.lists = itemsOf(text, before?.lists);
    this.byId = { parts: firstById(this.lists.parts), kits: firstById(this.lists.kits) };
    const isAsBefore = before?.quoted === this.quoted;
    this.read = before && isAsBefore ? before.read : new WeakMap();
    if (before && isAsBefore) this.takeFrom(before);
  }

  ids(list: List): string[] {
    return [...this.byId[list].keys()];
  }

  /** Ids that are given more than once, with the place of each. */
  twice(): { id: string; ranges: readonly Range[] }[] {
    const all = [...this.lists.parts, ...this.lists.kits];
    const { parts, kits } = this.byId;
    if (parts.size + kits.size === all.length && ![...kits.keys()].some((id) => parts.has(id))) return [];
    const seen = new Map<string, Item[]>();
    for (const item of all) {
      const others = seen.get(item.id);
      if (others) others.push(item);
      else seen.set(item.id, [item]);
    }
    const twice = [...seen].filter(([, items]) => items.length > 1).slice(0, MOST_TOLD);
    return twice.map(([id, items]) => ({
      id,
      ranges: items.slice(0, MOST_TOLD).map((item) => this.rangeOf(item, ['id'])),
    }));
  }

  part(id: string): ShelfPart | undefined {
    const item = this.byId.parts.get(id);
    return item && this.partOf(item);
  }

  kit(id: string): ShelfKit | undefined {
    const item = this.byId.kits.get(id);
    if (!item) return undefined;
    const { name, cost, kits = [], brings = {} } = (this.readOf(item, 'kits').values ?? {}) as Partial<Kit>;
    return { id, name, cost, kits, brings: brings as Record<string, string> };
  }

  ofKind(kind: PartKind): readonly ShelfPart[] {
    let found = this.ofKinds.get(kind);
    if (!found) {
      const may = new RegExp(`(?:^|[\\s{,"'])${kind}["']? *:`);
      const items = [...this.byId.parts.values()].filter((item) => item.whole || may.test(item.text));
      this.readAll(items);
      found = items.flatMap((item) => this.partOf(item) ?? []).filter((part) => part.kind === kind);
      this.ofKinds.set(kind, found);
    }
    return found;
  }

  /** Where an id is described, or the field of it at these steps. */
  placesOf(id: string, steps: readonly (string | number)[] = ['id']): Range[] {
    const items = [...this.lists.parts, ...this.lists.kits].filter((item) => item.id === id);
    return items.map((item) => this.rangeOf(item, steps));
  }

  private partOf(item: Item): ShelfPart | undefined {
    const read = this.readOf(item, 'parts');
    if (!('part' in read)) read.part = partOf(item.id, (read.values ?? {}) as Partial<Part>, this.quoted);
    return read.part;
  }

  private readOf(item: Item, list: List): Read {
    return this.known(item) ?? this.remember(item, readItem(item.text, list));
  }

  /** Where an item stands by itself, read for its places. */
  private entryOf(item: Item, list: List): Entry | undefined {
    const read = this.readOf(item, list);
    if (!('entry' in read)) read.entry = readItem(item.text, list).entry;
    return read.entry;
  }

  private known({ whole, stretch }: Item): Read | undefined {
    return whole ?? this.read.get(stretch);
  }

  private remember({ stretch }: Item, read: Read): Read {
    this.read.set(stretch, read);
    return read;
  }

  /** Reads parts by the dozen, which is faster; where anything is wrong with a lot of them, each is left to be read alone. */
  private readAll(items: readonly Item[]): void {
    const unread = items.filter((item) => !this.known(item));
    for (let start = 0; start < unread.length; start += AT_ONCE) {
      const lot = unread.slice(start, start + AT_ONCE);
      const text = headOf('parts') + lot.map((item) => `${item.text}\n`).join('');
      const { values, problems } = readText<CatalogValues>(text, catalogRoot, validateCatalog);
      if (problems.length > 0 || values.parts?.length !== lot.length) continue;
      for (const [index, item] of lot.entries()) this.remember(item, { values: values.parts[index] });
    }
  }

  /** What was read of an item that stands elsewhere now. */
  private takeFrom({ byId }: Catalog): void {
    for (const list of ['parts', 'kits'] as const) {
      for (const [id, { text, stretch }] of this.byId[list]) {
        const known = byId[list].get(id);
        if (!known || known.stretch === stretch || known.text !== text) continue;
        const read = this.read.get(known.stretch);
        if (read) this.read.set(stretch, read);
      }
    }
  }

  private rangeOf(item: Item, steps: readonly (string | number)[]): Range {
    const isKit = this.lists.kits.includes(item);
    const entry = this.entryOf(item, isKit ? 'kits' : 'parts');
    if (!entry) return { start: item.start, end: item.start + 1 };
    const by = item.whole ? 0 : item.start - headOf(isKit ? 'kits' : 'parts').length;
    const found = nearestEntry({ root: entry }, steps);
    const { kind, key, value } = found === entry ? (childOf(entry, 'id') ?? entry) : found;
    const place = kind === 'scalar' || !key ? value : key;
    return { start: place.start + by, end: place.end + by };
  }
}

function headOf(list: List): string {
  return `format: 1\n${list}:\n`;
}

/** An entry of an item, whose path begins in the item. */
function readItem(text: string, list: List): Read {
  const sheet = readText<CatalogValues>(headOf(list) + text, catalogRoot, validateCatalog);
  return { values: sheet.values[list]?.[0], entry: entryOf(sheet, [list, 0]) };
}

/** An anchor, an alias or a merge key: an item may then stand on what is written elsewhere. */
const SHARED = /(?:^|[\s[{,])(?:[&*][\w-]|<<:)/m;

/** Stretches in which nothing of that is. */
const plain = new WeakSet<object>();

/** The day on which the prices of a catalog were asked for, if it says one for all. */
function quotedIn(text: string): string | undefined {
  const cuts = cutsOf(text);
  const cut = cuts?.find(({ kind, name }) => kind === 'field' && name === 'quoted');
  const said = cuts ? text.slice(cut?.start ?? 0, cut?.end ?? 0) : text;
  return /^quoted: *["']?(\d{4}-\d{2}-\d{2})/m.exec(said)?.[1];
}

function itemsOf(text: string, before?: Record<List, readonly Item[]>): Record<List, readonly Item[]> {
  if (text.length > MOST_CATALOG) return { parts: [], kits: [] };
  const cuts = inEveryStretch(text, plain, (part) => !SHARED.test(part)) ? cutsOf(text) : undefined;
  const [parts, kits] = [scanned(text, 'parts', cuts, before), scanned(text, 'kits', cuts, before)];
  const isPlain = (list: List, items: readonly Item[] | undefined) =>
    items ?? !new RegExp(`^["']?${list}`, 'm').test(text);
  if (cuts && isPlain('parts', parts) && isPlain('kits', kits)) return { parts: parts ?? [], kits: kits ?? [] };
  const sheet = readText<CatalogValues>(text, catalogRoot, validateCatalog, undefined, MOST_CATALOG);
  const whole = (list: List): Item[] =>
    (sheet.values[list] ?? []).flatMap((values, index) => {
      const entry = entryOf(sheet, [list, index]);
      return typeof values?.id === 'string' && entry
        ? [{ id: values.id, text: '', start: entry.value.start, stretch: values, whole: { values, entry } }]
        : [];
    });
  return { parts: whole('parts'), kits: whole('kits') };
}

function scanned(
  text: string,
  list: List,
  cuts: readonly Cut[] | undefined,
  before?: Record<List, readonly Item[]>,
): Item[] | undefined {
  if (!cuts) return undefined;
  try {
    return itemIds(text, list, cuts, before?.[list])?.flatMap(({ id, text: item, cut }) =>
      id === undefined ? [] : [{ id, text: item, start: cut.start, stretch: cut.stretch }],
    );
  } catch (error) {
    if (error instanceof TooLarge) return [];
    throw error;
  }
}

function firstById(items: readonly Item[]): Map<string, Item> {
  const found = new Map<string, Item>();
  for (const item of items) if (!found.has(item.id)) found.set(item.id, item);
  return found;
}

function partOf(id: string, values: Partial<Part>, quoted: string | undefined): ShelfPart | undefined {
  const kind = kinds.find((one) => values[one] !== undefined);
  if (!kind) return undefined;
  const { name, cost, sold = 'piece', stock, available, note } = values;
  const own = values[kind] as Record<string, unknown>;
  const takesName = kind !== 'circuit';
  return {
    id,
    kind,
    name,
    fields: {
      ...own,
      ...(takesName && { name: name ?? id }),
      ...(takesName && cost !== undefined && { cost }),
    },
    cost,
    sold,
    costPer: values['cost-per'],
    stock,
    quoted: values.quoted ?? quoted,
    available,
    note,
  };
}
