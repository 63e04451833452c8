import {
  CodeActionKind,
  type Connection,
  type DidChangeTextDocumentParams,
  DidChangeWatchedFilesNotification,
  DocumentDiagnosticReportKind,
  type DocumentRangeFormattingParams,
  FileChangeType,
  FileOperationPatternKind,
  type InitializeParams,
  MessageType,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Service } from '../service.ts';
import { type Kind, kindOf, WATCHED } from '../workspace/kind.ts';
import { answerAcceptance } from './accept.ts';
import { answerAsking } from './ask.ts';
import { type Client, clientOf } from './client.ts';
import { withFilesOfClient } from './client-files.ts';
import { answerRepairs, FIX_ALL, MOVE, PART, QUESTION, REWRITE } from './code-actions.ts';
import { completionList } from './completion.ts';
import { EXTRACT } from './extract.ts';
import { answerFigures } from './figures-panel.ts';
import { answerFolder, publishFolder } from './folder-diagnostics.ts';
import { foldingRanges } from './folding.ts';
import { formattingEdits, wholeLines } from './formatting.ts';
import { guarded } from './guard.ts';
import { answerHints } from './hints.ts';
import { hoverOf } from './hover.ts';
import { documentLinks } from './links.ts';
import { answerMoving } from './moving.ts';
import { answerPages } from './pages.ts';
import { answerParts } from './parts.ts';
import { type Host, Session } from './session.ts';
import { followSettings } from './settings.ts';
import { symbolsOf } from './symbols.ts';
import { resultIdOf } from './whole-folder.ts';
import { done } from './work.ts';

/** Answers a client on a connection; takes faults from outside any request. */
export function serve(connection: Connection, host: Host, service = new Service()): (error: unknown) => void {
  const session = new Session(connection, host, service);
  begin(session);
  synchronize(session);
  answerReading(session);
  answerFolder(session);
  answerMoving(session);
  answerRepairs(session);
  answerAcceptance(session);
  answerFigures(session);
  answerHints(session);
  answerPages(session);
  answerParts(session);
  answerAsking(session);
  return (error) => session.faults.note('the server', error);
}

/** How long a hover may look for what the build needs, in ms, before it is shown without. */
const HOVER_PATIENCE = 1000;

/** A folder that comes or goes, which a watcher of files does not always tell. */
const FOLDERS = { filters: [{ pattern: { glob: '**/*', matches: FileOperationPatternKind.folder } }] };

function begin(session: Session): void {
  const { connection, service } = session;
  connection.onInitialize((params) => {
    session.client = clientOf(params);
    if (session.client.givesFiles) session.host = withFilesOfClient(session.host, connection);
    service.workspace.roots = rootsOf(params);
    service.workspace.today = new Date().toISOString().slice(0, 10);
    return { serverInfo: { name: 'build-sheet' }, capabilities: capabilitiesFor(session.client) };
  });
  connection.onInitialized(
    session.noticing('the start', async () => {
      if (session.client.changesFolders) followFolders(session);
      session.ready = session.noticing('the settings', followSettings)(session);
      if (!session.client.pullsDiagnostics)
        publishFolder(session).catch((error) => session.faults.note('the check of the folder', error));
      if (!session.client.watches) return;
      const watchers = WATCHED.map((globPattern) => ({ globPattern }));
      await connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
    }),
  );
}

function capabilitiesFor(client: Client): ServerCapabilities {
  return {
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: !client.watches },
    ...(client.pullsDiagnostics && {
      diagnosticProvider: { identifier: 'build-sheet', interFileDependencies: true, workspaceDiagnostics: true },
    }),
    hoverProvider: true,
    completionProvider: { triggerCharacters: [' ', '{', '['] },
    ...(client.takesActions && {
      codeActionProvider: {
        codeActionKinds: [CodeActionKind.QuickFix, FIX_ALL, QUESTION, REWRITE, MOVE, EXTRACT, PART],
        resolveProvider: client.resolvesActions,
      },
    }),
    documentSymbolProvider: true,
    foldingRangeProvider: true,
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentLinkProvider: {},
    definitionProvider: true,
    implementationProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: client.preparesRename ? { prepareProvider: true } : true,
    linkedEditingRangeProvider: true,
    selectionRangeProvider: true,
    workspaceSymbolProvider: true,
    inlayHintProvider: true,
    codeLensProvider: {},
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { didCreate: FOLDERS, didRename: FOLDERS, didDelete: FOLDERS },
    },
  };
}

function rootsOf({ workspaceFolders, rootUri }: InitializeParams): string[] {
  if (workspaceFolders) return workspaceFolders.map(({ uri }) => uri);
  return rootUri ? [rootUri] : [];
}

function followFolders(session: Session): void {
  const { workspace } = session.service;
  session.connection.workspace.onDidChangeWorkspaceFolders(
    session.noticing('the change of folders', ({ added, removed }) => {
      const gone = new Set(removed.map(({ uri }) => uri));
      workspace.roots = [...workspace.roots.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
      session.folder.relist();
      session.recheck();
    }),
  );
}

function synchronize(session: Session): void {
  const { connection, documents } = session;
  const changed = (uri: string, kind: Kind | undefined) => {
    const dependents = kind === 'catalog' ? session.service.workspace.dependents(uri) : [];
    if (kind) session.folder.doubt([uri, ...dependents]);
    if (kind === 'house') session.recheck();
    else if (kind === 'catalog') session.recheck([uri, ...dependents]);
    else if (kind && !session.client.pullsDiagnostics) session.recheck([uri]);
  };

  connection.onDidOpenTextDocument(
    session.noticing('the opening of a text', async ({ textDocument: { uri, languageId, version, text } }) => {
      changed(uri, documents.put(TextDocument.create(uri, languageId, version, text)));
      if (!session.client.watches) await session.lookAgain();
    }),
  );
  connection.onDidChangeTextDocument(
    guarded(
      ({ textDocument: { uri, version }, contentChanges }: DidChangeTextDocumentParams): void => {
        session.edited();
        changed(uri, documents.change(uri, contentChanges, version));
      },
      (error, { textDocument: { uri } }) => {
        session.faults.note('a change of a text', error);
        documents.close(uri);
        session.tell(MessageType.Error, 'Build Sheet lost track of a text: close it and open it again.');
      },
    ),
  );
  connection.onDidSaveTextDocument(
    session.noticing('the saving of a text', () => {
      if (session.client.watches) return undefined;
      session.folder.relist();
      session.folder.doubt();
      return session.lookAgain();
    }),
  );
  connection.onDidCloseTextDocument(
    session.noticing('the closing of a text', async ({ textDocument: { uri } }) => {
      const kind = documents.close(uri);
      session.faults.forget(uri);
      if (kind && !session.client.pullsDiagnostics) await session.publish(uri, []);
      session.folder.doubt([uri]);
      if (kind === 'house' || kind === 'catalog') session.recheck();
    }),
  );
  const folderCameOrWent = session.noticing('the change of a folder', () => {
    session.folder.relist();
    return session.lookAgain();
  });
  connection.workspace.onDidCreateFiles(folderCameOrWent);
  connection.workspace.onDidRenameFiles(folderCameOrWent);
  connection.workspace.onDidDeleteFiles(folderCameOrWent);
  connection.onDidChangeWatchedFiles(
    session.noticing('the change of files', async ({ changes }) => {
      if (!changes.every(({ uri }) => kindOf(uri, '') === 'sheet')) await session.lookAgain();
      if (changes.some(({ type }) => type !== FileChangeType.Changed)) session.folder.relist();
      session.folder.doubt(changes.map(({ uri }) => uri));
    }),
  );
}

function answerReading(session: Session): void {
  const { connection, service } = session;
  connection.languages.diagnostics.on(async ({ textDocument: { uri }, previousResultId }, token) => {
    session.goingOn(undefined, token)();
    const isOpen = session.documents.get(uri) !== undefined;
    const { items = [] } = (isOpen ? await session.diagnose(uri) : await session.folder.reportOf(uri)) ?? {};
    const resultId = resultIdOf(items);
    if (resultId === previousResultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
    return { kind: DocumentDiagnosticReportKind.Full, items, resultId };
  });
  connection.onHover(
    session.answering('hover', null, async (document, { position }, mayGoOn) => {
      const steps = service.explained(document.uri, document.offsetAt(position));
      const explanation = await done(steps, HOVER_PATIENCE, mayGoOn);
      return explanation ? hoverOf(document, explanation, session.client) : null;
    }),
  );
  connection.onCompletion(
    session.answering(
      'completion',
      null,
      (document, { position }) => {
        const completion = service.complete(document.uri, document.offsetAt(position));
        return completion ? completionList(document, completion, session.client) : null;
      },
      { needsHouse: false },
    ),
  );
  connection.onDocumentSymbol(
    session.answering(
      'the outline',
      [],
      (document) => symbolsOf(document, service.outline(document.uri), session.client),
      { needsHouse: false },
    ),
  );
  connection.onFoldingRanges(
    session.answering(
      'folding',
      [],
      (document) => foldingRanges(document, service.folds(document.uri), session.client),
      { needsHouse: false },
    ),
  );
  connection.onDocumentFormatting(
    session.answering('formatting', [], (document) => formattingEdits(document, service.format(document.uri)), {
      needsHouse: false,
    }),
  );
  connection.onDocumentRangeFormatting(
    session.answering(
      'formatting',
      [],
      (document, { range }: DocumentRangeFormattingParams) =>
        formattingEdits(document, service.format(document.uri, wholeLines(document, range))),
      { needsHouse: false },
    ),
  );
  connection.onDocumentLinks(
    session.answering(
      'links',
      [],
      (document) => documentLinks(document, service.links(document.uri), session.host.pageOf),
      {
        needsHouse: false,
      },
    ),
  );
}
