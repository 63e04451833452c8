import type { HouseConfig } from '../generated/house-config.ts';
import { type House, noHouse } from '../sheet/house.ts';
import type { Sheet } from '../sheet/read.ts';
import type { Place } from '../text/place.ts';
import { Catalogs, HouseShelf } from './catalogs.ts';
import { Dependencies } from './dependencies.ts';
import { readHouse } from './house-file.ts';
import { homeOf, housesAbove, nearOverFar } from './house-folders.ts';
import { type Kind, kindOf } from './kind.ts';
import { addressBelow, logsNamedIn, NOT_LOOKED_FOR } from './logs.ts';

/** One version of a text that is open in an editor. */
export type OpenText = { uri: string; kind: Kind; version: number; text: string };

/** A file as the host found it: its text, nothing there, or refused for a reason. */
export type File = { kind: 'text'; text: string } | { kind: 'absent' } | { kind: 'refused'; reason: string };

/** House rules, or a catalog they name, that do not hold, or not all of them, and why. */
export type HouseFault = { of: 'house' | 'catalog'; at: Place; reason: string };

/** Files to be looked for: those below a folder whose paths from there match a pattern. */
export type Search = { folder: string; patterns: readonly string[] };

const NO_LOGS: readonly string[] = [];
const NOT_WANTED: File = { kind: 'refused', reason: NOT_LOOKED_FOR };

type HouseFile = { sheet: Sheet<HouseConfig> } | { refused: string };

/**
 * House rules that hold for a text, with the catalogs they name: the same object as long as all of them stay the same; the
 * house as long as its rules do.
 */
export type Standing = { readonly house: House; readonly faults: readonly HouseFault[] };

/** What holds for the texts of one folder, worked out of these files at a time. */
type Known = {
  time: string;
  files: readonly HouseFile[];
  catalogs: readonly string[];
  goods: readonly unknown[];
  logs: readonly unknown[];
  standing: Standing;
};

/**
 * All texts by their address, open or on disk. Nothing is read here: what is wanted from disk is told by `wanted` and
 * `searches`, and the host gives it.
 */
export class Workspace {
  private readonly open = new Map<string, OpenText>();
  private readonly files = new Map<string, File>();
  private readonly found = new Map<string, readonly string[]>();
  private readonly houses = new WeakMap<OpenText | File, HouseFile>();
  private readonly unsure = new Set<string>();
  private readonly needs = new Dependencies();
  private readonly unopened = new Set<string>();
  private readonly logs = new Map<string, readonly string[]>();
  private readonly standings = new Map<string, Known>();
  private folders: readonly string[] = [];
  private followed: number | undefined;
  private usualHouse: House = noHouse;
  readonly catalogs = new Catalogs((uri) => this.open.get(uri) ?? this.files.get(uri));
  /** Grows whenever house rules may have changed. */
  revision = 0;
  /** Grows whenever a catalog may have changed. */
  stocktaking = 0;
  /** How many times files were doubted; what was asked for before the last time does not settle it. */
  doubts = 0;
  /** The day it is, as `2026-03-02`, if the host tells it. */
  today: string | undefined;

  constructor(private readonly knownRules: ReadonlySet<string>) {}

  /** Takes over a version of an open text. */
  put(text: OpenText): void {
    const before = this.open.get(text.uri);
    this.open.set(text.uri, text);
    this.mark(text.kind);
    const isOther = text.kind === 'sheet' && this.takeLogs(text.uri, text.text);
    if (text.kind !== 'house' && (!before || isOther)) this.follow([text.uri]);
  }

  /** Forgets an open text; what its file holds counts again. */
  close(uri: string): void {
    const kind = this.open.get(uri)?.kind;
    if (kind === 'house' || kind === 'catalog') {
      this.mark(kind);
      if (this.files.has(uri)) this.unsure.add(uri);
    }
    this.open.delete(uri);
    if (!this.unopened.has(uri)) this.letGo(uri);
  }

  /** Has what a sheet that is not open depends on told by `wanted`. */
  expect(uri: string, text = ''): void {
    this.unopened.add(uri);
    const isOther = !this.open.has(uri) && this.takeLogs(uri, text);
    if (!this.needs.has(uri) || isOther) this.follow([uri]);
  }

  /** Takes down which logs a sheet names; whether they are others than before. */
  private takeLogs(uri: string, text: string): boolean {
    const before = this.logs.get(uri) ?? NO_LOGS;
    const now = logsNamedIn(uri, text);
    if (areSame(before, now)) return false;
    this.logs.set(uri, now);
    this.revision++;
    return true;
  }

  /** Forgets a sheet that was expected. */
  dismiss(uri: string): void {
    this.unopened.delete(uri);
    if (!this.open.has(uri)) this.letGo(uri);
  }

  private letGo(uri: string): void {
    this.needs.forget(uri);
    this.logs.delete(uri);
    for (const [file, { kind }] of this.files) {
      if (this.needs.isNeeded(file)) continue;
      this.files.delete(file);
      if (kind !== 'absent') this.mark(kindOf(file, ''));
    }
    for (const file of this.unsure) if (!this.needs.isNeeded(file) && !this.found.has(file)) this.unsure.delete(file);
    if (!this.needs.isNeeded(uri)) this.catalogs.forget(uri);
  }

  private mark(kind: Kind | undefined): void {
    if (kind === 'house') this.revision++;
    if (kind === 'catalog') this.stocktaking++;
  }

  /** Takes down what texts depend on, as the house rules are now. */
  private follow(uris: Iterable<string>): void {
    for (const uri of uris) {
      const others = this.catalogsOf(uri).filter((catalog) => catalog !== uri);
      this.needs.set(uri, [...housesAbove(uri, this.folders).flat(), ...others, ...(this.logs.get(uri) ?? NO_LOGS)]);
    }
  }

  private followAll(): void {
    if (this.followed === this.revision) return;
    this.followed = this.revision;
    this.follow(this.dependent);
  }

  /** Every text that house rules hold for. */
  private get dependent(): Set<string> {
    const open = this.all().filter(({ kind }) => kind !== 'house');
    return new Set([...this.unopened, ...open.map(({ uri }) => uri)]);
  }

  get(uri: string): OpenText | undefined {
    return this.open.get(uri);
  }

  all(): OpenText[] {
    return [...this.open.values()];
  }

  /** What holds where no house rules say anything. */
  set usual(house: House) {
    this.usualHouse = house;
    this.revision++;
    this.standings.clear();
  }

  get roots(): readonly string[] {
    return this.folders;
  }

  set roots(folders: readonly string[]) {
    this.folders = folders;
    this.revision++;
    this.standings.clear();
  }

  /** Addresses of the files that are not known, or perhaps no longer as they were. */
  wanted(): string[] {
    this.followAll();
    const unknown = this.needs.all().filter((uri) => !this.files.has(uri) || this.unsure.has(uri));
    return unknown.filter((uri) => !this.open.has(uri));
  }

  /** The searches for catalogs whose files are not known, or perhaps no longer those. */
  searches(): Search[] {
    const byKey = new Map<string, Search>();
    const folders = new Set([...this.dependent].map((uri) => uri.slice(0, uri.lastIndexOf('/') + 1)));
    for (const folder of folders) {
      const search = this.searchFor(`${folder}x`);
      if (search) byKey.set(keyOf(search), search);
    }
    return [...byKey].flatMap(([key, search]) => (!this.found.has(key) || this.unsure.has(key) ? [search] : []));
  }

  /** Every file that what is told of a text stands on, as far as it is known. */
  behind(uri: string): (readonly [uri: string, file: File | undefined])[] {
    return this.needs.of(uri).map((needed) => {
      const text = this.open.get(needed)?.text;
      return [needed, text === undefined ? this.files.get(needed) : { kind: 'text', text }] as const;
    });
  }

  /** Every file may have changed since it was given. */
  doubt(): void {
    this.doubts++;
    for (const uri of this.files.keys()) this.unsure.add(uri);
    for (const key of this.found.keys()) this.unsure.add(key);
  }

  /** Takes over what the host found at an address, asked after so many doubts; whether that is not as before. */
  give(uri: string, file: File, doubts: number): boolean {
    const before = this.files.get(uri);
    const isNew = before !== file;
    if (doubts === this.doubts) this.unsure.delete(uri);
    else this.unsure.add(uri);
    this.files.set(uri, file);
    const isStillNothing = file.kind === 'absent' && (before === undefined || before.kind === 'absent');
    if (isNew && !isStillNothing) this.mark(kindOf(uri, '') === 'catalog' ? 'catalog' : 'house');
    return isNew;
  }

  /** Takes over the addresses the host found by a search, asked after so many doubts. */
  giveFound(search: Search, uris: readonly string[], doubts: number): void {
    const key = keyOf(search);
    if (doubts === this.doubts) this.unsure.delete(key);
    const before = this.found.get(key);
    this.found.set(key, uris);
    if (before?.join('\n') !== uris.join('\n')) this.revision++;
  }

  /** The texts that what stands at an address holds for: house rules, or a catalog they name. */
  dependents(uri: string): string[] {
    this.followAll();
    return this.needs.dependents(uri);
  }

  /** The house rules that hold for a text, with the catalogs they name, and those that should but do not. */
  houseFor(uri: string): Standing {
    const folder = homeOf(uri) ?? '';
    const before = this.standings.get(folder);
    const time = `${this.revision} ${this.stocktaking}`;
    if (before?.time === time) return before.standing;
    const found = this.housesOf(uri);
    const files = found.map(({ file }) => file);
    const catalogs = this.catalogsOf(uri);
    const goods = catalogs.map((at) => this.open.get(at) ?? this.files.get(at));
    const logs = this.logsIn(folder);
    const isSame =
      before && areSame(before.files, files) && areSame(before.catalogs, catalogs) && areSame(before.logs, logs);
    let standing = before?.standing;
    if (!isSame || !standing || !areSame(before.goods, goods))
      standing = {
        house: isSame ? before.standing.house : this.houseOf(files, catalogs, logs.length > 0 ? folder : undefined),
        faults: [...found.flatMap(({ at, file }) => faultOf(at, file)), ...this.catalogFaults(uri)],
      };
    this.standings.set(folder, { time, files, catalogs, goods, logs, standing });
    return standing;
  }

  /** The logs that sheets of a folder name, by address and by what is there. */
  private logsIn(folder: string): readonly unknown[] {
    const named = [...this.logs].flatMap(([uri, logs]) => (homeOf(uri) === folder ? logs : []));
    return named.flatMap((at) => [at, this.files.get(at)]);
  }

  private houseOf(files: readonly HouseFile[], catalogs: readonly string[], logged: string | undefined): House {
    const own = files.flatMap((file) => ('sheet' in file ? [file.sheet.values] : []));
    const house = nearOverFar([this.usualHouse, ...own]);
    const shelf = new HouseShelf(catalogs, this.catalogs, () => this.today);
    if (catalogs.length === 0 && logged === undefined) return house;
    return {
      ...house,
      ...(catalogs.length > 0 && { shelf }),
      ...(logged !== undefined && { logs: { at: (file) => this.logAt(logged, file) } }),
    };
  }

  /** A log of a sheet in a folder as the host found it; nothing yet where it is wanted. */
  private logAt(folder: string, file: string): File | undefined {
    const uri = addressBelow(folder, file);
    const isWanted = [...this.logs].some(([sheet, logs]) => homeOf(sheet) === folder && logs.includes(uri));
    return isWanted ? this.files.get(uri) : NOT_WANTED;
  }

  /** The nearest house rules of a text that are there. */
  nearestHouse(uri: string): { at: string; file: HouseFile } | undefined {
    return this.housesOf(uri).at(-1);
  }

  private housesOf(uri: string): { at: string; file: HouseFile }[] {
    return housesAbove(uri, this.folders).flatMap((candidates) => {
      const at = candidates.find((candidate) => this.houseAt(candidate));
      const file = at === undefined ? undefined : this.houseAt(at);
      return at !== undefined && file ? [{ at, file }] : [];
    });
  }

  /**
   * The search for the catalogs of a text: of the nearest house rules that name some, from their own folder; where none do,
   * what usually holds, from the folder that is opened.
   */
  searchFor(uri: string): Search | undefined {
    const named = this.housesOf(uri).findLast(({ file }) => 'sheet' in file && file.sheet.values.catalogs?.length);
    if (named && 'sheet' in named.file)
      return { folder: named.at.slice(0, named.at.lastIndexOf('/')), patterns: named.file.sheet.values.catalogs ?? [] };
    const { catalogs = [] } = this.usualHouse;
    const [outermost] = housesAbove(uri, this.folders);
    const folder = outermost?.[0]?.slice(0, outermost[0].lastIndexOf('/'));
    return folder !== undefined && catalogs.length > 0 ? { folder, patterns: catalogs } : undefined;
  }

  /** The catalogs that hold for a text, as far as they are known. */
  catalogsOf(uri: string): readonly string[] {
    const search = this.searchFor(uri);
    return (search && this.found.get(keyOf(search))) ?? [];
  }

  private catalogFaults(uri: string): HouseFault[] {
    const range = { start: 0, end: 0 };
    const search = this.searchFor(uri);
    const uris = this.catalogsOf(uri);
    if (search && this.found.has(keyOf(search)) && uris.length === 0) {
      const reason = `nothing is found by ${search.patterns.join(', ')}.`;
      return [{ of: 'catalog', at: { uri: `${search.folder}/`, range }, reason }];
    }
    return uris.flatMap((at): HouseFault[] => {
      const source = this.open.get(at) ?? this.files.get(at);
      return source?.kind === 'refused' ? [{ of: 'catalog', at: { uri: at, range }, reason: source.reason }] : [];
    });
  }

  /** The text at an address as it stands in an open editor, else on disk. */
  textAt(uri: string): string | undefined {
    const source = this.open.get(uri) ?? this.files.get(uri);
    return source && 'text' in source ? source.text : undefined;
  }

  /** House rules as they stand in an open editor, else on disk. */
  houseAt(uri: string): HouseFile | undefined {
    const source = this.open.get(uri) ?? this.files.get(uri);
    if (!source || source.kind === 'absent' || source.kind === 'sheet' || source.kind === 'catalog') return undefined;
    const known = this.houses.get(source);
    if (known) return known;
    const read =
      source.kind === 'refused' ? { refused: source.reason } : { sheet: readHouse(source.text, this.knownRules) };
    this.houses.set(source, read);
    return read;
  }
}

function faultOf(uri: string, file: HouseFile): HouseFault[] {
  if ('refused' in file) return [{ of: 'house', at: { uri, range: { start: 0, end: 0 } }, reason: file.refused }];
  const [first] = file.sheet.problems;
  return first ? [{ of: 'house', at: { uri, range: first.range }, reason: first.message }] : [];
}

function keyOf({ folder, patterns }: Search): string {
  return [folder, ...patterns].join('\n');
}

function areSame(one: readonly unknown[], other: readonly unknown[]): boolean {
  return one.length === other.length && one.every((item, index) => item === other[index]);
}
