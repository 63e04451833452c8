import type { HouseConfig } from '../generated/house-config.ts';
import type { House } from '../sheet/house.ts';
import type { Sheet } from '../sheet/read.ts';
import type { Place } from '../text/place.ts';
import { Dependencies } from './dependencies.ts';
import { readHouse } from './house-file.ts';
import { homeOf, housesAbove, nearOverFar } from './house-folders.ts';
import type { Kind } from './kind.ts';

/** One version of a text that is open in an editor. */
export type OpenText = { uri: string; kind: Kind; version: number; text: string };

/** A file as the host found it: its text, nothing there, or refused for a reason. */
export type File = { kind: 'text'; text: string } | { kind: 'absent' } | { kind: 'refused'; reason: string };

/** House rules that do not hold, or not all of them, and why. */
export type HouseFault = { at: Place; reason: string };

type HouseFile = { sheet: Sheet<HouseConfig> } | { refused: string };

/** House rules that hold for a text: the same object as long as they stay the same. */
export type Standing = { readonly house: House; readonly faults: readonly HouseFault[] };

/** What holds for the texts of one folder, worked out of these files at a revision. */
type Known = { revision: number; files: readonly HouseFile[]; standing: Standing };

/**
 * All texts by their address, open or on disk. Nothing is read here: what is wanted from disk is told by `wanted`, and the
 * host gives it.
 */
export class Workspace {
  private readonly open = new Map<string, OpenText>();
  private readonly files = new Map<string, File>();
  private readonly houses = new WeakMap<OpenText | File, HouseFile>();
  private readonly unsure = new Set<string>();
  private readonly needs = new Dependencies();
  private readonly unopened = new Set<string>();
  private readonly standings = new Map<string, Known>();
  private folders: readonly string[] = [];
  /** Grows whenever house rules may have changed. */
  revision = 0;
  /** How many times files were doubted; what was asked for before the last time does not settle it. */
  doubts = 0;

  constructor(private readonly knownRules: ReadonlySet<string>) {}

  /** Takes over a version of an open text. */
  put(text: OpenText): void {
    const before = this.open.get(text.uri);
    this.open.set(text.uri, text);
    if (text.kind === 'house') this.revision++;
    else if (!before) this.needs.set(text.uri, housesAbove(text.uri, this.folders).flat());
  }

  /** Forgets an open text; what its file holds counts again. */
  close(uri: string): void {
    if (this.open.get(uri)?.kind === 'house') {
      this.revision++;
      if (this.files.has(uri)) this.unsure.add(uri);
    }
    this.open.delete(uri);
    if (!this.unopened.has(uri)) this.letGo(uri);
  }

  /** Has what a sheet that is not open depends on told by `wanted`. */
  expect(uri: string): void {
    this.unopened.add(uri);
    if (!this.needs.has(uri)) this.needs.set(uri, housesAbove(uri, this.folders).flat());
  }

  /** Forgets a sheet that was expected. */
  dismiss(uri: string): void {
    this.unopened.delete(uri);
    if (!this.open.has(uri)) this.letGo(uri);
  }

  private letGo(uri: string): void {
    this.needs.forget(uri);
    for (const file of this.files.keys()) if (!this.needs.isNeeded(file)) this.files.delete(file);
    for (const file of this.unsure) if (!this.needs.isNeeded(file)) this.unsure.delete(file);
  }

  get(uri: string): OpenText | undefined {
    return this.open.get(uri);
  }

  all(): OpenText[] {
    return [...this.open.values()];
  }

  get roots(): readonly string[] {
    return this.folders;
  }

  set roots(folders: readonly string[]) {
    this.folders = folders;
    this.revision++;
    this.standings.clear();
    const sheets = this.all().filter(({ kind }) => kind === 'sheet');
    for (const uri of [...this.unopened, ...sheets.map(({ uri }) => uri)])
      this.needs.set(uri, housesAbove(uri, folders).flat());
  }

  /** Addresses of the files that are not known, or perhaps no longer as they were. */
  wanted(): string[] {
    const unknown = this.needs.all().filter((uri) => !this.files.has(uri) || this.unsure.has(uri));
    return unknown.filter((uri) => !this.open.has(uri));
  }

  /** Every file may have changed since it was given. */
  doubt(): void {
    this.doubts++;
    for (const uri of this.files.keys()) this.unsure.add(uri);
  }

  /** Takes over what the host found at an address, asked after so many doubts; whether that is not as before. */
  give(uri: string, file: File, doubts: number): boolean {
    const isNew = this.files.get(uri) !== file;
    if (doubts === this.doubts) this.unsure.delete(uri);
    this.files.set(uri, file);
    if (isNew) this.revision++;
    return isNew;
  }

  /** The sheets that the house rules at an address hold for. */
  dependents(uri: string): string[] {
    return this.needs.dependents(uri);
  }

  /** The house rules that hold for a text, and those that should but do not. */
  houseFor(uri: string): Standing {
    const folder = homeOf(uri) ?? '';
    const before = this.standings.get(folder);
    if (before?.revision === this.revision) return before.standing;
    const found = housesAbove(uri, this.folders).flatMap((candidates) => {
      const at = candidates.find((candidate) => this.houseAt(candidate));
      const file = at === undefined ? undefined : this.houseAt(at);
      return at !== undefined && file ? [{ at, file }] : [];
    });
    const files = found.map(({ file }) => file);
    const isSame = before?.files.length === files.length && files.every((file, index) => file === before.files[index]);
    const standing = isSame
      ? before.standing
      : {
          house: nearOverFar(files.flatMap((file) => ('sheet' in file ? [file.sheet.values] : []))),
          faults: found.flatMap(({ at, file }) => faultOf(at, file)),
        };
    this.standings.set(folder, { revision: this.revision, files, standing });
    return standing;
  }

  /** The text at an address as it stands in an open editor, else on disk. */
  textAt(uri: string): string | undefined {
    const source = this.open.get(uri) ?? this.files.get(uri);
    return source && 'text' in source ? source.text : undefined;
  }

  /** House rules as they stand in an open editor, else on disk. */
  houseAt(uri: string): HouseFile | undefined {
    const source = this.open.get(uri) ?? this.files.get(uri);
    if (!source || source.kind === 'absent' || source.kind === 'sheet') return undefined;
    const known = this.houses.get(source);
    if (known) return known;
    const read =
      source.kind === 'refused' ? { refused: source.reason } : { sheet: readHouse(source.text, this.knownRules) };
    this.houses.set(source, read);
    return read;
  }
}

function faultOf(uri: string, file: HouseFile): HouseFault[] {
  if ('refused' in file) return [{ at: { uri, range: { start: 0, end: 0 } }, reason: file.refused }];
  const [first] = file.sheet.problems;
  return first ? [{ at: { uri, range: first.range }, reason: first.message }] : [];
}
