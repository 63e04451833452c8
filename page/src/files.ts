import counterRules from '../../samples/counter/build-sheet.config.yaml';
import counterCall from '../../samples/counter/counter-call.build.yaml';
import shelf from '../../samples/counter/shelf.parts.yaml';
import shelfWagon from '../../samples/counter/shelf-wagon.build.yaml';
import loomWagon from '../../samples/loom-wagon.build.yaml';
import overreachRoadster from '../../samples/overreach-roadster.build.yaml';
import quarryWagon from '../../samples/quarry-wagon.build.yaml';

/** The folder of what the user writes and opens. */
export const OWN = 'page:///own';

const SAMPLES = 'page:///samples';

/** Texts that come with the page, by address. */
const given: ReadonlyMap<string, string> = new Map([
  [`${SAMPLES}/quarry-wagon.build.yaml`, quarryWagon],
  [`${SAMPLES}/overreach-roadster.build.yaml`, overreachRoadster],
  [`${SAMPLES}/loom-wagon.build.yaml`, loomWagon],
  [`${SAMPLES}/counter/counter-call.build.yaml`, counterCall],
  [`${SAMPLES}/counter/shelf-wagon.build.yaml`, shelfWagon],
  [`${SAMPLES}/counter/build-sheet.config.yaml`, counterRules],
  [`${SAMPLES}/counter/shelf.parts.yaml`, shelf],
]);

const PREFIX = 'build-sheet ';
const LAST = 'build-sheet: last opened';
const OPENED = 'build-sheet: as opened ';

export function isSheet(uri: string): boolean {
  return /\.build\.ya?ml$/i.test(uri);
}

/**
 * The files of the page: those it came with, and over them what the user wrote or opened, which the browser keeps over a
 * reload where it may.
 */
export class Files {
  private readonly written = new Map<string, string>();
  /** Whether the browser keeps what is written. */
  keeps = true;

  constructor() {
    this.trying(() => {
      for (const key of Object.keys(localStorage).toSorted())
        if (key.startsWith(PREFIX)) this.written.set(key.slice(PREFIX.length), localStorage.getItem(key) ?? '');
    });
  }

  get last(): string | undefined {
    const last = this.trying(() => localStorage.getItem(LAST)) ?? undefined;
    return last !== undefined && this.read(last) !== undefined ? last : undefined;
  }

  set last(uri: string) {
    this.trying(() => localStorage.setItem(LAST, uri));
  }

  read(uri: string): string | undefined {
    return this.written.get(uri) ?? given.get(uri);
  }

  write(uri: string, text: string): void {
    this.written.set(uri, text);
    this.trying(() => localStorage.setItem(PREFIX + uri, text));
  }

  /** The text as it was when it was opened, if it was before the page was loaded again. */
  opened(uri: string): string | undefined {
    return this.trying(() => localStorage.getItem(OPENED + uri)) ?? undefined;
  }

  keepOpened(uri: string, text: string): void {
    this.trying(() => localStorage.setItem(OPENED + uri, text));
  }

  /** Forgets what was written; a text that came with the page is as it came. */
  forget(uri: string): void {
    this.written.delete(uri);
    this.trying(() => {
      localStorage.removeItem(PREFIX + uri);
      localStorage.removeItem(OPENED + uri);
    });
  }

  /** Addresses of what can be opened: sheets, and catalogs and house rules of the user; what the user wrote comes first. */
  get texts(): string[] {
    const own = [...this.written.keys()].filter((uri) => /\.ya?ml$/i.test(uri));
    return [...new Set([...own, ...[...given.keys()].filter(isSheet)])];
  }

  /** Whether the user has catalogs. */
  get hasCatalogs(): boolean {
    return [...this.written.keys()].some((uri) => uri.startsWith(`${OWN}/`) && /\.parts\.ya?ml$/.test(uri));
  }

  /** An address in the folder of the user that nothing has yet. */
  free(name: string): string {
    const [stem = '', rest = ''] = name.split(/(?=\.(?:build|parts)\.)/);
    const addressOf = (number: number) =>
      `${OWN}/${encodeURIComponent(number > 1 ? `${stem}-${number}${rest}` : name)}`;
    let number = 1;
    while (this.read(addressOf(number)) !== undefined) number++;
    return addressOf(number);
  }

  /** What stands in a folder. */
  entries(folder: string): { name: string; isFolder: boolean }[] {
    const below = [...this.written.keys(), ...given.keys()].filter((uri) => uri.startsWith(`${folder}/`));
    const byName = new Map(
      below.map((uri) => {
        const [name = '', ...rest] = uri.slice(folder.length + 1).split('/');
        return [decodeURIComponent(name), rest.length > 0] as const;
      }),
    );
    return [...byName].map(([name, isFolder]) => ({ name, isFolder }));
  }

  private trying<Result>(access: () => Result): Result | undefined {
    try {
      return access();
    } catch {
      this.keeps = false;
      return undefined;
    }
  }
}

/** The name of a file as a reader knows it. */
export function nameOf(uri: string): string {
  return decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
}
