import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { HouseConfig } from './generated/house-config.ts';
import { HOUSE_FILES, houseFor, type ReadFile, readHouse } from './houses.ts';
import { type Checked, checkText } from './rules/checked.ts';
import type { House } from './sheet/house.ts';
import type { Sheet } from './sheet/read.ts';

/** An open document: a build sheet, checked, or house rules, read. Each version is computed once, when first asked for. */
export type OpenDocument =
  | { kind: 'sheet'; text: TextDocument; checked: () => Checked }
  | { kind: 'house'; text: TextDocument; house: () => Sheet<HouseConfig> };

/** The open documents and what was computed from their newest version. */
export class Documents {
  private readonly open = new Map<string, OpenDocument>();
  private readonly onDisk = new Map<string, Sheet<HouseConfig>>();
  roots: string[] = [];

  constructor(private readonly readFile: ReadFile) {}

  put(text: TextDocument): void {
    const isHouse = HOUSE_FILES.some((name) => text.uri.endsWith(`/${name}`));
    if (isHouse) this.open.set(text.uri, { kind: 'house', text, house: once(() => readHouse(text.getText())) });
    else this.open.set(text.uri, { kind: 'sheet', text, checked: once(() => this.check(text)) });
  }

  forget(uri: string): void {
    this.open.delete(uri);
  }

  get(uri: string): OpenDocument | undefined {
    return this.open.get(uri);
  }

  all(): OpenDocument[] {
    return [...this.open.values()];
  }

  /** Every sheet is checked anew, since the house rules have changed. */
  refresh(): void {
    for (const { text } of this.all()) this.put(text);
  }

  private check(text: TextDocument): Checked {
    return checkText(
      text.getText(),
      houseFor(text.uri, this.roots, (uri) => this.houseAt(uri)),
    );
  }

  /** House rules as they stand in an open editor, else on disk; an unchanged file is not parsed again. */
  private houseAt(uri: string): House | undefined {
    const open = this.open.get(uri);
    if (open?.kind === 'house') return open.house().values;
    const text = this.readFile(uri);
    if (text === undefined) return undefined;
    const known = this.onDisk.get(uri);
    if (known?.text === text) return known.values;
    const read = readHouse(text);
    this.onDisk.set(uri, read);
    return read.values;
  }
}

function once<T>(compute: () => T): () => T {
  let value: T | undefined;
  return () => {
    value ??= compute();
    return value;
  };
}
