import {
  type CancellationToken,
  type CodeAction,
  CodeActionKind,
  type CompletionItem,
  CompletionItemKind,
  type Connection,
  type Diagnostic,
  DidChangeWatchedFilesNotification,
  DocumentDiagnosticReportKind,
  type InitializeParams,
  type InitializeResult,
  InsertTextFormat,
  LSPErrorCodes,
  MarkupKind,
  ResponseError,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Documents, type OpenDocument } from './documents.ts';
import { FIX_ALL, fixAll, problemFixes, quickFixes } from './features/code-actions.ts';
import { completionsAt, type Proposal } from './features/completion.ts';
import { type PageOf, problemDiagnostic, sheetDiagnostics } from './features/diagnostics.ts';
import { lspRange, offsetRange, touches } from './features/document.ts';
import { foldingRanges } from './features/folding.ts';
import { hoverAt } from './features/hover.ts';
import { linksOf } from './features/links.ts';
import { symbolsOf } from './features/symbols.ts';
import { HOUSE_FILES, type ReadFile } from './houses.ts';
import { houseRoot, root } from './sheet/schema.ts';

/** What the server needs from the place it runs in. */
export type Host = { readFile: ReadFile; pageOf: PageOf };

const kinds: Record<Proposal['kind'], CompletionItemKind> = {
  field: CompletionItemKind.Field,
  choice: CompletionItemKind.EnumMember,
  value: CompletionItemKind.Value,
  unit: CompletionItemKind.Unit,
};

/** Answers a client's requests on a connection; each from the newest version of the document. */
export function serve(connection: Connection, { readFile, pageOf }: Host): void {
  const documents = new Documents(readFile);
  const client = { pullsDiagnostics: false, refreshes: false, watches: false, snippets: false, changesFolders: false };

  connection.onInitialize((params): InitializeResult => {
    const { textDocument, workspace } = params.capabilities;
    client.pullsDiagnostics = textDocument?.diagnostic !== undefined;
    client.refreshes = workspace?.diagnostics?.refreshSupport === true;
    client.watches = workspace?.didChangeWatchedFiles?.dynamicRegistration === true;
    client.snippets = textDocument?.completion?.completionItem?.snippetSupport === true;
    client.changesFolders = workspace?.workspaceFolders === true;
    documents.roots = rootsOf(params);
    return {
      serverInfo: { name: 'build-sheet' },
      capabilities: {
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
        ...(client.pullsDiagnostics && {
          diagnosticProvider: { identifier: 'build-sheet', interFileDependencies: false, workspaceDiagnostics: false },
        }),
        hoverProvider: true,
        completionProvider: { triggerCharacters: [':', ' ', '{', '[', '-'] },
        codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, FIX_ALL] },
        documentSymbolProvider: true,
        foldingRangeProvider: true,
        documentLinkProvider: {},
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
      },
    };
  });

  connection.onInitialized(() => {
    if (client.watches) {
      const watchers = HOUSE_FILES.map((name) => ({ globPattern: `**/${name}` }));
      connection.client.register(DidChangeWatchedFilesNotification.type, { watchers });
    }
    if (!client.changesFolders) return;
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      const gone = new Set(removed.map(({ uri }) => uri));
      documents.roots = [...documents.roots.filter((uri) => !gone.has(uri)), ...added.map(({ uri }) => uri)];
      recheck();
    });
  });

  connection.onDidOpenTextDocument(({ textDocument: { uri, languageId, version, text } }) => {
    changed(TextDocument.create(uri, languageId, version, text));
  });
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    const open = documents.get(uri);
    if (open) changed(TextDocument.update(open.text, contentChanges, version));
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    const isHouse = documents.get(uri)?.kind === 'house';
    documents.forget(uri);
    if (!client.pullsDiagnostics) connection.sendDiagnostics({ uri, diagnostics: [] });
    if (isHouse) recheck();
  });
  connection.onDidChangeWatchedFiles(() => recheck());

  function changed(text: TextDocument) {
    documents.put(text);
    const open = documents.get(text.uri);
    if (open?.kind === 'house') recheck();
    else if (open && !client.pullsDiagnostics) publishSoon(text.uri);
  }

  function recheck() {
    documents.refresh();
    if (client.pullsDiagnostics && client.refreshes) connection.languages.diagnostics.refresh();
    if (!client.pullsDiagnostics) for (const { text } of documents.all()) publishSoon(text.uri);
  }

  const waiting = new Set<string>();

  /** Publishes after the messages already received, so that of several edits only the newest is checked. */
  function publishSoon(uri: string) {
    if (waiting.has(uri)) return;
    waiting.add(uri);
    setTimeout(() => {
      waiting.delete(uri);
      const open = documents.get(uri);
      if (open) connection.sendDiagnostics({ uri, version: open.text.version, diagnostics: diagnosticsOf(open) });
    }, 0);
  }

  function diagnosticsOf(open: OpenDocument): Diagnostic[] {
    if (open.kind === 'house')
      return open.house().problems.map((problem) => problemDiagnostic(open.text, problem, pageOf));
    return sheetDiagnostics(open.text, open.checked(), pageOf);
  }

  connection.languages.diagnostics.on(
    unlessCancelled(({ textDocument: { uri } }) => {
      const open = documents.get(uri);
      return { kind: DocumentDiagnosticReportKind.Full, items: open ? diagnosticsOf(open) : [] };
    }),
  );

  connection.onHover(
    unlessCancelled(({ textDocument: { uri }, position }) => {
      const open = documents.get(uri);
      if (!open) return null;
      const { sheet, plan, system, accepted } = readOf(open);
      const hover = hoverAt(sheet.root, open.text.offsetAt(position), plan, system, accepted);
      if (!hover) return null;
      return {
        contents: { kind: MarkupKind.Markdown, value: hover.markdown },
        range: lspRange(open.text, hover.range),
      };
    }),
  );

  connection.onCompletion(
    unlessCancelled(({ textDocument: { uri }, position }): CompletionItem[] => {
      const open = documents.get(uri);
      if (!open) return [];
      const schema = open.kind === 'house' ? houseRoot : root;
      const proposals = completionsAt(open.text.getText(), open.text.offsetAt(position), schema);
      return proposals.map((proposal, index) => completionItem(open.text, proposal, index));
    }),
  );

  function completionItem(text: TextDocument, proposal: Proposal, index: number): CompletionItem {
    const newText = client.snippets ? proposal.insert : withoutSnippet(proposal.insert);
    return {
      label: proposal.label,
      kind: kinds[proposal.kind],
      detail: proposal.detail,
      documentation: { kind: MarkupKind.Markdown, value: proposal.documentation },
      sortText: String(index).padStart(4, '0'),
      filterText: proposal.label,
      insertTextFormat: client.snippets ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
      textEdit: { range: lspRange(text, proposal.replace), newText },
    };
  }

  connection.onCodeAction(
    unlessCancelled(({ textDocument: { uri }, range, context: { only } }): CodeAction[] => {
      const open = documents.get(uri);
      if (!open) return [];
      const context = { document: open.text, pageOf };
      const wants = (kind: string) => !only || only.some((one) => kind === one || kind.startsWith(`${one}.`));
      const wanted = offsetRange(open.text, range);
      if (open.kind === 'house') {
        const touched = open.house().problems.filter((problem) => touches(problem.range, wanted));
        return wants(CodeActionKind.QuickFix) ? touched.flatMap((problem) => problemFixes(context, problem)) : [];
      }
      return [
        ...(wants(CodeActionKind.QuickFix) ? quickFixes(context, open.checked(), wanted) : []),
        ...(only && wants(FIX_ALL) ? fixAll(context, open.checked()) : []),
      ];
    }),
  );

  connection.onDocumentSymbol(
    unlessCancelled(({ textDocument: { uri } }) => {
      const open = documents.get(uri);
      return open ? symbolsOf(open.text, readOf(open).sheet.root) : [];
    }),
  );

  connection.onFoldingRanges(
    unlessCancelled(({ textDocument: { uri } }) => {
      const open = documents.get(uri);
      return open ? foldingRanges(open.text, readOf(open).sheet.root) : [];
    }),
  );

  connection.onDocumentLinks(
    unlessCancelled(({ textDocument: { uri } }) => {
      const open = documents.get(uri);
      return open ? linksOf(open.text, readOf(open).sheet.root, pageOf) : [];
    }),
  );
}

function readOf(open: OpenDocument) {
  if (open.kind === 'house') return { sheet: open.house(), plan: [], system: 'us' as const, accepted: [] };
  const { sheet, plan, house, accepted } = open.checked();
  return { sheet, plan, system: house.units ?? ('us' as const), accepted };
}

function rootsOf({ workspaceFolders, rootUri }: InitializeParams): string[] {
  if (workspaceFolders) return workspaceFolders.map(({ uri }) => uri);
  return rootUri ? [rootUri] : [];
}

/** Refuses a request that the client has cancelled before its turn came. */
function unlessCancelled<Params, Result>(answer: (params: Params) => Result) {
  return (params: Params, token: CancellationToken): Result | ResponseError<never> =>
    token.isCancellationRequested ? new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled') : answer(params);
}

/** The text of a snippet for clients without snippets: the first choice or the example in place of each stop. */
function withoutSnippet(snippet: string): string {
  return snippet
    .replaceAll(/\$\{\d+\|([^,|]*)[^|]*\|\}/g, '$1')
    .replaceAll(/\$\{\d+:((?:\\\}|[^}])*)\}/g, '$1')
    .replaceAll(/\$\d+/g, '')
    .replaceAll('\\}', '}')
    .replaceAll('\\$', '$');
}
