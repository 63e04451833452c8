import type { Diagnostic, Range } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { unreadDiagnosis } from '../features/diagnostics.ts';
import type { NamedThing } from '../features/workspace-symbols.ts';
import { digest } from '../text/digest.ts';
import { sameFile } from '../workspace/address.ts';
import { MOST_CATALOG_BYTES } from '../workspace/catalogs.ts';
import { kindOf, MOST_SHEET_BYTES } from '../workspace/kind.ts';
import type { File, Standing } from '../workspace/workspace.ts';
import { faultDiagnostic } from './diagnostics.ts';
import { faultMessage } from './faults.ts';
import { lspRange } from './positions.ts';
import type { Session } from './session.ts';

/** What is wrong with a file: in this version of an open document, or as it stands on disk. */
export type FileReport = { uri: string; version: number | null; items: Diagnostic[]; resultId: string };

/** What is named in a file that is not open. */
export type NamedPlace = Omit<NamedThing, 'range'> & { range: Range };

/** A report with what it was made of, the text on disk by its digest and the house rules, and what is named in the text. */
type Known = {
  report: FileReport;
  text?: string;
  standing?: Standing | undefined;
  named?: readonly NamedPlace[];
};

/** What is doubted of a file: all of it, or only whether the same house rules hold. */
type Doubt = 'file' | 'rules';

/** So many files are read ahead of their check. */
const AHEAD = 8;

/** A longer text is checked after the others, and while nobody types, since its check cannot be interrupted. */
const LONG = 60_000;
const REST = 500;

/** Name of what a report holds, the same for the same diagnostics. */
export function resultIdOf(items: readonly Diagnostic[]): string {
  return digest(JSON.stringify(items));
}

/**
 * Every sheet and house-rules file in the folders of the workspace, open or not, with what is wrong with it. They are
 * checked one by one, with a look at other messages between two, while someone waits for it; what a change cannot touch is
 * not checked again.
 */
export class WholeFolder {
  private readonly found = new Map<string, string>();
  private readonly known = new Map<string, Known>();
  private readonly doubted = new Map<string, Doubt>();
  private readonly waiting = new Set<object>();
  private readonly sleepers = new Set<() => void>();
  private working: Promise<void> | undefined;
  /** Whether the files in the folders are known. */
  isListed = false;

  constructor(private readonly session: Session) {}

  /** What is known by now, by file. */
  get reports(): Iterable<readonly [string, FileReport]> {
    return [...this.known].map(([file, { report }]) => [file, report] as const);
  }

  /** What is named in the files that are not open, by their addresses. */
  get named(): readonly { uri: string; named: readonly NamedPlace[] }[] {
    const isClosed = (file: string) => !this.session.documents.like(file);
    return [...this.known].flatMap(([file, { report, named }]) =>
      named && isClosed(file) ? [{ uri: report.uri, named }] : [],
    );
  }

  has(file: string): boolean {
    return this.found.has(file);
  }

  /** How many files there are, and how many of them are still to be checked. */
  get counts(): { all: number; left: number } {
    return { all: this.found.size, left: this.doubted.size };
  }

  /** Files may not be as they were, and so is every report on them: those given, or all. */
  doubt(uris?: readonly string[]): void {
    const files = uris ? uris.map(sameFile).filter((file) => this.found.has(file)) : [...this.found.keys()];
    for (const file of files) this.doubted.set(file, 'file');
    if (files.length > 0) this.wake();
  }

  /** Other house rules may hold. */
  doubtRules(): void {
    for (const file of this.found.keys()) if (!this.doubted.has(file)) this.doubted.set(file, 'rules');
    this.wake();
  }

  /** What is wrong with one file as it is now. */
  async reportOf(uri: string): Promise<FileReport | undefined> {
    const file = sameFile(uri);
    await this.checkOrPutOff(file, await this.textToCheck(file), undefined);
    return this.known.get(file)?.report;
  }

  /** There may be other files than before. */
  relist(): void {
    this.isListed = false;
    this.wake();
  }

  /** Works until nothing is doubted any more, or nobody waits for it; `waiter` waits until it leaves. */
  work(waiter: object): Promise<void> {
    this.waiting.add(waiter);
    this.working ??= this.workOff().finally(() => {
      this.working = undefined;
      this.session.service.rest();
    });
    return this.working;
  }

  leave(waiter: object): void {
    this.waiting.delete(waiter);
  }

  /** Resolves at the next doubt. */
  change(): Promise<void> {
    return new Promise((resolve) => this.sleepers.add(resolve));
  }

  private wake(): void {
    for (const resolve of this.sleepers) resolve();
    this.sleepers.clear();
  }

  private async workOff(): Promise<void> {
    const late: string[] = [];
    for (;;) {
      if (!this.isListed) await this.list();
      const some = [...this.doubted.keys()].slice(0, AHEAD);
      if (some.length === 0 && late.length === 0) return;
      const next = some.length > 0 ? some : [late.shift() as string];
      if (some.length === 0) await this.session.rested(REST);
      const files = next.map((file) => ({ file, text: this.textToCheck(file) }));
      for (const [index, { file, text }] of files.entries()) {
        if (this.waiting.size === 0) return this.putBack([...next.slice(index), ...late]);
        await this.checkOrPutOff(file, await text, some.length > 0 ? late : undefined);
        await new Promise((go) => setTimeout(go, 0));
      }
    }
  }

  private putBack(files: readonly string[]): void {
    for (const file of files) if (this.found.has(file)) this.doubted.set(file, 'file');
  }

  private async list(): Promise<void> {
    await this.session.ready;
    const { host, service, settings } = this.session;
    this.isListed = true;
    const { uris, complaints } = await host.find(settings.wholeFolder ? service.workspace.roots : []);
    for (const complaint of complaints) this.session.connection.console.warn(complaint);
    const now = new Map(uris.map((uri) => [sameFile(uri), uri]));
    for (const file of this.found.keys()) if (!now.has(file)) this.forget(file);
    for (const [file, uri] of now) {
      if (!this.found.has(file)) this.doubted.set(file, 'file');
      this.found.set(file, uri);
    }
  }

  private forget(file: string): void {
    const uri = this.found.get(file);
    if (uri) this.session.service.workspace.dismiss(uri);
    for (const all of [this.found, this.known, this.doubted]) all.delete(file);
  }

  /** A file as it is on disk, where it has to be looked at. */
  private textToCheck(file: string): Promise<File | undefined> | undefined {
    const doubt = this.doubted.get(file);
    const known = this.known.get(file);
    this.doubted.delete(file);
    const uri = this.found.get(file);
    if (!uri || this.session.documents.like(file)) return undefined;
    const isSettled = doubt === 'rules' && known && this.standingOf(uri) === known.standing;
    const most = kindOf(uri, '') === 'catalog' ? MOST_CATALOG_BYTES : MOST_SHEET_BYTES;
    return isSettled ? undefined : this.session.host.readOnce(uri, most);
  }

  private standingOf(uri: string): Standing | undefined {
    return kindOf(uri, '') === 'sheet' ? this.session.service.standing(uri) : undefined;
  }

  private async checkOrPutOff(file: string, found: File | undefined, late: string[] | undefined): Promise<void> {
    const uri = this.found.get(file);
    if (!uri) return;
    const open = this.session.documents.like(file);
    if (open) {
      const { version = null, items } = await this.session.diagnose(open.uri);
      this.keep(file, { uri: open.uri, version, items });
    } else if (found?.kind === 'absent') this.forget(file);
    else if (found?.kind === 'refused') {
      const unread = this.session.shown(TextDocument.create(uri, '', 0, ''), [unreadDiagnosis(found.reason)]);
      this.keep(file, { uri, version: null, items: unread });
    } else if (found && found.text.length > LONG && late) late.push(file);
    else if (found) await this.check(file, uri, found.text);
  }

  private async check(file: string, uri: string, text: string): Promise<void> {
    const { service, faults } = this.session;
    if (kindOf(uri, '') === 'sheet') service.workspace.expect(uri, text);
    await this.session.supplied();
    const standing = this.standingOf(uri);
    const name = digest(text);
    const known = this.known.get(file);
    if (known?.text === name && known.standing === standing) return;
    const document = TextDocument.create(uri, '', 0, text);
    const stamp = { text: name, standing };
    try {
      const found = service.lookInto(uri, text);
      const items = this.session.shown(document, found.diagnoses);
      for (const { where, error } of found.faults) faults.note(`"${where}"`, error);
      const own = found.faults.map(({ where }) => faultDiagnostic(faultMessage(`"${where}"`)));
      const named = found.named.map((one) => ({ ...one, range: lspRange(document, one.range) }));
      this.keep(file, { uri, version: null, items: [...own, ...items] }, { ...stamp, named });
    } catch (error) {
      faults.note('the check', error);
      const items = [faultDiagnostic(faultMessage('the check'))];
      this.keep(file, { uri, version: null, items }, stamp);
    }
  }

  private keep(file: string, found: Omit<FileReport, 'resultId'>, more: Omit<Known, 'report'> = {}): void {
    this.known.set(file, { report: { ...found, resultId: resultIdOf(found.items) }, ...more });
  }
}
