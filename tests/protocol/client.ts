import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  type CancellationToken,
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import {
  type ClientCapabilities,
  type CodeAction,
  type CompletionList,
  type Diagnostic,
  type DocumentDiagnosticReport,
  FileChangeType,
  type FileEvent,
  type Hover,
  type InitializeResult,
  type Position,
  type PublishDiagnosticsParams,
  type Range,
  type TextDocumentEdit,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';

export const SERVER = resolve('dist/server.cjs');

/** What an editor such as VS Code tells of itself. */
export const pulls: ClientCapabilities = {
  textDocument: {
    diagnostic: {},
    publishDiagnostics: { versionSupport: true, relatedInformation: true, codeDescriptionSupport: true },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    completion: { completionItem: { snippetSupport: true, documentationFormat: ['markdown'] } },
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'source'] } },
      dataSupport: true,
      resolveSupport: { properties: ['edit'] },
    },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
  },
  workspace: {
    workspaceEdit: { documentChanges: true },
    workspaceFolders: true,
    diagnostics: { refreshSupport: true },
    didChangeWatchedFiles: { dynamicRegistration: true },
  },
};

/** An editor that waits for diagnostics to be published. */
export const waits: ClientCapabilities = {
  textDocument: { publishDiagnostics: { versionSupport: true } },
  workspace: { workspaceFolders: true, didChangeWatchedFiles: { dynamicRegistration: true } },
};

type Options = {
  capabilities?: ClientCapabilities;
  folders?: readonly string[];
  rootUri?: string;
  cache?: string;
  options?: object;
};

/** Where the servers of the tests keep what V8 compiled; not where those of a user do. */
const CACHE = join(tmpdir(), 'build-sheet-tests');

/** The built server in a process of its own, driven as an editor drives it. */
export class Client {
  readonly published: PublishDiagnosticsParams[] = [];
  readonly registered: string[] = [];
  readonly logged: string[] = [];
  refreshes = 0;
  initialized: InitializeResult | undefined;
  private readonly documents = new Map<string, TextDocument>();
  private readonly ended: Promise<number | null>;
  private stderr = '';

  private constructor(
    private readonly process: ChildProcess,
    readonly connection: MessageConnection,
  ) {
    this.ended = new Promise((done) => process.once('exit', (code) => done(code)));
    process.stderr?.on('data', (data) => {
      this.stderr += String(data);
    });
  }

  /** Starts a server; `prepare` says how the client answers what it is asked. */
  static async start(
    { capabilities = pulls, folders = [], rootUri, cache = CACHE, options }: Options = {},
    prepare: (connection: MessageConnection) => void = () => {},
  ): Promise<Client> {
    mustBeBuilt();
    const server = spawn(process.execPath, [SERVER, '--stdio'], {
      stdio: 'pipe',
      env: { ...process.env, XDG_CACHE_HOME: cache, LOCALAPPDATA: cache },
    });
    const connection = createMessageConnection(
      new StreamMessageReader(server.stdout),
      new StreamMessageWriter(server.stdin),
    );
    const client = new Client(server, connection);
    connection.onNotification('textDocument/publishDiagnostics', (params) => {
      client.published.push(params);
    });
    connection.onNotification('window/logMessage', ({ message }) => {
      client.logged.push(message);
    });
    connection.onRequest('client/registerCapability', ({ registrations }) => {
      client.registered.push(...registrations.map(({ method }: { method: string }) => method));
    });
    connection.onRequest('workspace/diagnostic/refresh', () => {
      client.refreshes++;
      return null;
    });
    prepare(connection);
    connection.listen();
    client.initialized = await connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri: rootUri ?? null,
      capabilities,
      initializationOptions: options,
      workspaceFolders: rootUri ? null : folders.map((uri) => ({ uri, name: uri })),
    });
    await connection.sendNotification('initialized', {});
    return client;
  }

  /** Shuts the server down as the protocol asks; its exit code. */
  async stop(): Promise<number | null> {
    await this.connection.sendRequest('shutdown');
    await this.connection.sendNotification('exit');
    return this.end();
  }

  /** Ends the server without asking. */
  async exit(): Promise<number | null> {
    await this.connection.sendNotification('exit');
    return this.end();
  }

  private async end(): Promise<number | null> {
    const code = await this.ended;
    this.connection.dispose();
    return code;
  }

  /** Ends the server whatever it is doing, if it has not ended. */
  kill(): void {
    this.process.kill('SIGKILL');
  }

  /** What the server has complained about outside the protocol. */
  complaints(): string[] {
    return [...this.logged, ...(this.stderr ? [this.stderr] : [])];
  }

  async open(uri: string, text: string, languageId = 'build-sheet'): Promise<void> {
    this.documents.set(uri, TextDocument.create(uri, languageId, 1, text));
    await this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId, version: 1, text },
    });
  }

  /** Changes stretches of a document, later ones first, as an editor that sends edits. */
  async change(uri: string, edits: readonly { range: Range; newText: string }[]): Promise<void> {
    const document = this.document(uri);
    const sorted = edits.toSorted(
      (one, other) => document.offsetAt(other.range.start) - document.offsetAt(one.range.start),
    );
    const contentChanges = sorted.map(({ range, newText }) => ({ range, text: newText }));
    const version = document.version + 1;
    this.documents.set(uri, TextDocument.update(document, contentChanges, version));
    await this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges,
    });
  }

  /** Replaces the first place of some text by another. */
  async replace(uri: string, before: string, after: string): Promise<void> {
    await this.change(uri, [{ range: this.rangeOf(uri, before), newText: after }]);
  }

  async close(uri: string): Promise<void> {
    this.documents.delete(uri);
    await this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  /** Tells that files have changed on disk. */
  async touched(...uris: string[]): Promise<void> {
    await this.watched(uris.map((uri) => ({ uri, type: FileChangeType.Changed })));
  }

  /** Tells that files have come, changed or gone. */
  async watched(changes: FileEvent[]): Promise<void> {
    await this.connection.sendNotification('workspace/didChangeWatchedFiles', { changes });
  }

  /** Applies an action, once its edit was made where it has none yet. */
  async apply(action: CodeAction | undefined): Promise<void> {
    const made = action?.data && !action.edit ? await this.resolve(action) : action;
    for (const change of (made?.edit?.documentChanges ?? []) as TextDocumentEdit[]) {
      const { uri, version } = change.textDocument;
      if (version !== this.document(uri).version) throw new Error(`an edit of version ${version}`);
      await this.change(uri, change.edits as { range: Range; newText: string }[]);
    }
  }

  text(uri: string): string {
    return this.document(uri).getText();
  }

  document(uri: string): TextDocument {
    const document = this.documents.get(uri);
    if (!document) throw new Error(`${uri} is not open`);
    return document;
  }

  /** Range of the first place of some text. */
  rangeOf(uri: string, part: string): Range {
    const document = this.document(uri);
    const at = document.getText().indexOf(part);
    if (at < 0) throw new Error(`${part} is not in ${uri}`);
    return { start: document.positionAt(at), end: document.positionAt(at + part.length) };
  }

  async pull(uri: string, token?: CancellationToken): Promise<Diagnostic[]> {
    const report = await this.request<DocumentDiagnosticReport>('textDocument/diagnostic', { uri }, {}, token);
    if (report.kind !== 'full') throw new Error(`a report of kind ${report.kind}`);
    return report.items;
  }

  hover(uri: string, position: Position): Promise<Hover | null> {
    return this.request('textDocument/hover', { uri }, { position });
  }

  complete(uri: string, position: Position): Promise<CompletionList> {
    return this.request('textDocument/completion', { uri }, { position });
  }

  actions(uri: string, range: Range, only?: string[]): Promise<CodeAction[]> {
    return this.request('textDocument/codeAction', { uri }, { range, context: { diagnostics: [], only } });
  }

  resolve(action: CodeAction): Promise<CodeAction> {
    return this.connection.sendRequest('codeAction/resolve', action);
  }

  request<Result>(
    method: string,
    textDocument: { uri: string },
    params: object = {},
    token?: CancellationToken,
  ): Promise<Result> {
    const asked = { textDocument, ...params };
    return token ? this.connection.sendRequest(method, asked, token) : this.connection.sendRequest(method, asked);
  }

  /** The next diagnostics published for a document that fit, also those that came before. */
  async publishedFor(
    uri: string,
    fits: (params: PublishDiagnosticsParams) => boolean,
  ): Promise<PublishDiagnosticsParams> {
    return until(() => this.published.findLast((params) => params.uri === uri && fits(params)));
  }

  /** Waits until the server has worked off what was sent before. */
  async settled(): Promise<void> {
    await this.request('textDocument/documentSymbol', { uri: 'file:///none.build.yaml' });
  }
}

/** Polls until there is an answer, for twenty seconds at most. */
export async function until<Answer>(ask: () => Answer | undefined | false): Promise<Answer> {
  const end = Date.now() + 20_000;
  for (;;) {
    const answer = ask();
    if (answer) return answer;
    if (Date.now() > end) throw new Error(`nothing came of ${ask}`);
    await new Promise((done) => setTimeout(done, 5));
  }
}

/** What diagnostics say, as `text in question: message`. */
export function told(document: TextDocument, diagnostics: readonly Diagnostic[]): string[] {
  return diagnostics.map(({ range, message }) => `${document.getText(range)}: ${message}`);
}

/** Codes of the diagnostics. */
export function codes(diagnostics: readonly Diagnostic[]): string[] {
  return diagnostics.map(({ code }) => String(code));
}

/** A text without its cursor mark, and the place of the mark. */
export function cursor(marked: string): { text: string; position: Position } {
  const at = marked.indexOf('‸');
  if (at < 0) throw new Error('no cursor in the text');
  const text = marked.replace('‸', '');
  return { text, position: TextDocument.create('', '', 0, text).positionAt(at) };
}

export function uriOf(path: string): string {
  return pathToFileURL(path).href;
}

/** Writes a file below a folder, with the folders it needs; its address. */
export function written(folder: string, path: string, text: string): string {
  const file = join(folder, path);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
  return uriOf(file);
}

function mustBeBuilt(): void {
  if (!existsSync(SERVER)) throw new Error('dist/server.cjs is missing: run `npm run build`');
  const built = statSync(SERVER).mtimeMs;
  const newer = [...files('server/src'), ...files('schemas')].find((file) => statSync(file).mtimeMs > built);
  if (newer) throw new Error(`dist/server.cjs is older than ${newer}: run \`npm run build\``);
}

/** Files the server is built from, but those that are generated. */
function files(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === 'generated' || entry.name === 'reference' ? [] : files(path);
    return /\.(ts|json)$/.test(entry.name) ? [path] : [];
  });
}
