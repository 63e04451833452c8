import {
  type CancellationToken,
  CodeLensRefreshRequest,
  type Connection,
  type Diagnostic,
  LSPErrorCodes,
  type MessageType,
  ResponseError,
  ShowMessageNotification,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Diagnosis } from '../features/diagnostics.ts';
import type { Service } from '../service.ts';
import { type Files, isSupplied, supplyOnce } from '../workspace/supply.ts';
import type { File } from '../workspace/workspace.ts';
import { type Client, clientOf } from './client.ts';
import { diagnosticsOf, faultDiagnostic, type PageOf } from './diagnostics.ts';
import { Documents } from './documents.ts';
import { Faults, faultMessage } from './faults.ts';
import { guarded } from './guard.ts';
import { type Settings, usualSettings } from './settings.ts';
import { WholeFolder } from './whole-folder.ts';

/** What the server needs from the place it runs in: files, none of which takes long and the same object for one that has not changed. */
export type Host = Files & {
  /** Whether it can look at an address by itself; the client is asked for others, where it gives files. */
  holds: (uri: string) => boolean;
  /** The same for a file that is looked at once in a while: nothing of it is remembered. */
  readOnce: (uri: string, mostBytes: number) => Promise<File>;
  /** Addresses of our files in folders and below, and what could not be looked at; never throws. */
  find: (folders: readonly string[]) => Promise<{ uris: string[]; complaints: string[] }>;
  /** Address of the page that explains a code. */
  pageOf: PageOf;
};

/** What was found in a version of a document; no version, if it is not open. */
type Diagnosed = { version?: number; items: Diagnostic[] };

/** Params of a request about a document. */
type About = { textDocument: { uri: string } };

/** One client and its open documents: files are read, faults caught and diagnostics published here, for every capability. */
export class Session {
  readonly documents: Documents;
  readonly faults: Faults;
  readonly folder = new WholeFolder(this);
  client: Client = clientOf({ processId: null, rootUri: null, capabilities: {} });
  settings: Settings = usualSettings;
  /** Settled once the settings are known. */
  ready: Promise<void> = Promise.resolve();
  private readonly publishing = new Set<string>();
  private supplying: Promise<unknown> | undefined;
  private isRefreshing = false;
  private lastEdit = 0;

  constructor(
    readonly connection: Connection,
    public host: Host,
    readonly service: Service,
  ) {
    this.documents = new Documents(service);
    this.faults = new Faults((line) => connection.console.error(line));
  }

  /** Waits until the host has given every file that is wanted. */
  async supplied(): Promise<void> {
    while (!isSupplied(this.service.workspace)) {
      this.supplying ??= supplyOnce(this.service.workspace, this.host).finally(() => {
        this.supplying = undefined;
      });
      await this.supplying;
    }
  }

  /** Takes down that somebody types. */
  edited(): void {
    this.lastEdit = performance.now();
  }

  /** Waits until nobody has typed for some time, in ms. */
  async rested(rest: number): Promise<void> {
    for (let left = rest; left > 0; left = this.lastEdit + rest - performance.now())
      await new Promise((go) => setTimeout(go, left));
  }

  /** Looks at every known file again; what depends on one that has changed is checked again. */
  async lookAgain(): Promise<void> {
    const { workspace } = this.service;
    const { revision, stocktaking } = workspace;
    workspace.doubt();
    await this.supplied();
    if (workspace.revision !== revision || workspace.stocktaking !== stocktaking) this.recheck();
  }

  /** A handler of a notification or of work put off; a fault in it is logged. */
  noticing<Params extends unknown[]>(what: string, handle: (...params: Params) => void | Promise<void>) {
    return guarded(handle, (error: unknown, ..._: Params) => {
      this.faults.note(what, error);
    });
  }

  /**
   * A handler of a request about a document: answered from the version it was asked of or not at all, with `otherwise` for
   * a document that is not ours, and after a fault, which is told in the document.
   */
  answering<Params extends About, Result>(
    what: string,
    otherwise: Result,
    answer: (document: TextDocument, params: Params, mayGoOn: () => void) => Result | Promise<Result>,
    { needsHouse = true } = {},
  ) {
    const handle = async (params: Params, token: CancellationToken): Promise<Result> => {
      const document = this.documents.get(params.textDocument.uri);
      const mayGoOn = this.goingOn(document, token);
      mayGoOn();
      if (!document) return otherwise;
      if (needsHouse) await this.supplied();
      mayGoOn();
      return answer(document, params, mayGoOn);
    };
    return guarded(handle, (error, { textDocument: { uri } }) => {
      const document = this.documents.get(uri);
      if (this.faults.note(what, error, document)) this.recheck([uri]);
      return otherwise;
    });
  }

  /** A question to be asked between steps: throws once the request is cancelled or its document has changed. */
  goingOn(document: TextDocument | undefined, token: CancellationToken): () => void {
    const version = document?.version;
    return () => {
      if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
      if (document && (document.version !== version || this.documents.get(document.uri) !== document))
        throw new ResponseError(LSPErrorCodes.ContentModified, 'the text has changed');
    };
  }

  /** Everything wrong with the newest version of a document; after a fault, that there was one. */
  readonly diagnose = guarded(
    async (uri: string): Promise<Diagnosed> => {
      await this.supplied();
      const document = this.documents.get(uri);
      if (!document) return { items: [] };
      const found = this.shown(document, this.service.diagnose(uri));
      for (const { where, error } of this.service.faults(uri)) this.faults.note(`"${where}"`, error, document);
      const items = [...this.faults.messagesIn(document).map(faultDiagnostic), ...found];
      return { version: document.version, items };
    },
    (error, uri) => {
      const document = this.documents.get(uri);
      this.faults.note('the check', error, document);
      return { ...(document && { version: document.version }), items: [faultDiagnostic(faultMessage('the check'))] };
    },
  );

  /** Diagnoses of a document as its client shows them. */
  shown(document: TextDocument, diagnoses: readonly Diagnosis[]): Diagnostic[] {
    const { client, host, service } = this;
    const textAt = (uri: string) => service.workspace.textAt(uri);
    return diagnosticsOf(document, diagnoses, { client, pageOf: host.pageOf, textAt });
  }

  /** Has texts checked again: those given, or all in the folders and all that are open. */
  recheck(some?: readonly string[]): void {
    if (!some) this.folder.doubtRules();
    const uris = some ?? this.service.workspace.all().map(({ uri }) => uri);
    if (!this.client.pullsDiagnostics) for (const uri of uris) this.publishSoon(uri);
    else if (this.client.refreshesDiagnostics) this.refreshSoon();
  }

  /** Publishes after the messages already received, so that of several edits only the newest is checked. */
  private publishSoon(uri: string): void {
    if (this.publishing.has(uri)) return;
    this.publishing.add(uri);
    const publish = async () => {
      this.publishing.delete(uri);
      const { version, items } = await this.diagnose(uri);
      if (version !== undefined && this.documents.get(uri)?.version === version)
        await this.publish(uri, items, version);
    };
    setTimeout(this.noticing('the publishing of diagnostics', publish), 0);
  }

  /** Shows diagnostics of a document, of the version they were found in. */
  publish(uri: string, diagnostics: Diagnostic[], version?: number): Promise<void> {
    return this.connection.sendDiagnostics({
      uri,
      ...(version !== undefined && this.client.takesVersions && { version }),
      diagnostics,
    });
  }

  /** Tells the user something that belongs to no place in a text. */
  tell(type: MessageType, message: string): void {
    this.connection.sendNotification(ShowMessageNotification.type, { type, message });
  }

  /** Has hints shown anew, where the client can. */
  refreshHints(): void {
    if (this.client.refreshesHints) this.connection.languages.inlayHint.refresh().catch(() => {});
  }

  /** Has lenses shown anew, where the client can. */
  refreshLenses(): void {
    if (this.client.refreshesLenses) this.connection.sendRequest(CodeLensRefreshRequest.type).catch(() => {});
  }

  /** Asks the client once, after the messages already received, to pull again. */
  private refreshSoon(): void {
    if (this.isRefreshing) return;
    this.isRefreshing = true;
    const refresh = async () => {
      this.isRefreshing = false;
      await this.connection.languages.diagnostics.refresh();
    };
    setTimeout(this.noticing('the refreshing of diagnostics', refresh), 0);
  }
}
