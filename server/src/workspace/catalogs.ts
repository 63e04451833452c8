import { Catalog } from '../sheet/catalog.ts';
import { MOST_CATALOG } from '../sheet/parse.ts';
import type { Shelf, ShelfKit, ShelfPart } from '../sheet/shelf.ts';
import type { PartKind } from '../sheet/slots.ts';
import type { Place } from '../text/place.ts';
import type { File, OpenText } from './workspace.ts';

/** Most bytes of a catalog that is read from disk; a character may take several. */
export const MOST_CATALOG_BYTES = 2 * MOST_CATALOG;

type Source = OpenText | File;

/** Catalogs as they were last read of their texts; of the version before, parts that are the same are kept. */
export class Catalogs {
  private readonly bySource = new WeakMap<Source, Catalog>();
  private readonly newest = new Map<string, Catalog>();

  /** @param source the text at an address, open or on disk */
  constructor(private readonly source: (uri: string) => Source | undefined) {}

  at(uri: string): Catalog | undefined {
    const source = this.source(uri);
    if (!source || !('text' in source)) return undefined;
    let catalog = this.bySource.get(source);
    if (!catalog) {
      catalog = new Catalog(source.text, this.newest.get(uri));
      this.bySource.set(source, catalog);
      this.newest.set(uri, catalog);
    }
    return catalog;
  }

  forget(uri: string): void {
    this.newest.delete(uri);
  }
}

/** What several catalogs hold, as their texts are at the moment; of an id in two of them the first counts. */
export class HouseShelf implements Shelf {
  constructor(
    readonly uris: readonly string[],
    private readonly catalogs: Catalogs,
    private readonly day: () => string | undefined,
  ) {}

  get isEmpty(): boolean {
    return this.all.length === 0;
  }

  get today(): string | undefined {
    return this.day();
  }

  part(id: string): ShelfPart | undefined {
    return this.first(({ catalog }) => catalog.part(id));
  }

  kit(id: string): ShelfKit | undefined {
    return this.first(({ catalog }) => catalog.kit(id));
  }

  ofKind(kind: PartKind): readonly ShelfPart[] {
    const [only, ...others] = this.all;
    if (only && others.length === 0) return only.catalog.ofKind(kind);
    const found = new Map<string, ShelfPart>();
    for (const { catalog } of this.all)
      for (const part of catalog.ofKind(kind)) if (this.part(part.id) === part) found.set(part.id, part);
    return [...found.values()];
  }

  ids(list: 'parts' | 'kits'): readonly string[] {
    return this.all.flatMap(({ catalog }) => catalog.ids(list));
  }

  placeOf(id: string, steps?: readonly (string | number)[]): Place | undefined {
    return this.first(({ uri, catalog }) => {
      const [range] = catalog.placesOf(id, steps);
      return range && { uri, range };
    });
  }

  placesOf(id: string): readonly Place[] {
    return this.all.flatMap(({ uri, catalog }) => catalog.placesOf(id).map((range) => ({ uri, range })));
  }

  private get all(): { uri: string; catalog: Catalog }[] {
    return this.uris.flatMap((uri) => {
      const catalog = this.catalogs.at(uri);
      return catalog ? [{ uri, catalog }] : [];
    });
  }

  private first<T>(find: (one: { uri: string; catalog: Catalog }) => T | undefined): T | undefined {
    for (const one of this.all) {
      const found = find(one);
      if (found !== undefined) return found;
    }
    return undefined;
  }
}
