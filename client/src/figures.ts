import {
  commands,
  Disposable,
  type ExtensionContext,
  languages,
  Range,
  type TextDocument,
  type TextEditor,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import type { Beside, Figures, FromPanel, State, ToPanel } from '../panel/messages.ts';
import { atLastCommit, gitIfOn, NOT_IN_COMMIT } from './git.ts';

const VIEW = 'buildSheet.figures';

/** Shows the figures of the active sheet beside it; the panel comes back with what was tried when the window is loaded again. */
export function figuresPanel(context: ExtensionContext, client: () => LanguageClient | undefined): Disposable {
  let shown: FiguresPanel | undefined;
  const take = (panel: WebviewPanel, state: State) => {
    const own = new FiguresPanel(panel, context.extensionUri, client, state);
    shown = own;
    panel.onDidDispose(() => {
      own.dispose();
      if (shown === own) shown = undefined;
    });
  };
  return Disposable.from(
    commands.registerCommand('buildSheet.showFigures', () => {
      const editor = sheetEditor(window.activeTextEditor);
      if (shown) return shown.reveal(editor?.document);
      if (!editor) return void window.showInformationMessage('Open a build sheet first.');
      const panel = window.createWebviewPanel(VIEW, 'Figures', { viewColumn: ViewColumn.Beside, preserveFocus: true });
      take(panel, { uri: editor.document.uri.toString(), settings: [], beside: 'nothing', plots: false });
    }),
    window.registerWebviewPanelSerializer(VIEW, {
      deserializeWebviewPanel: async (panel: WebviewPanel, state: State | undefined) =>
        take(panel, { uri: '', settings: [], beside: 'nothing', plots: false, ...state }),
    }),
  );
}

function sheetEditor(editor: TextEditor | undefined): TextEditor | undefined {
  return editor?.document.languageId === 'build-sheet' ? editor : undefined;
}

/** One panel: it follows the sheet that is worked in, and what is found in it. */
class FiguresPanel implements Disposable {
  private readonly following: Disposable;
  private turn = 0;

  constructor(
    private readonly panel: WebviewPanel,
    extension: Uri,
    private readonly client: () => LanguageClient | undefined,
    private state: State,
  ) {
    const { webview } = panel;
    webview.options = { enableScripts: true, localResourceRoots: [Uri.joinPath(extension, 'dist')] };
    this.following = Disposable.from(
      webview.onDidReceiveMessage((message: FromPanel) => this.take(message)),
      languages.onDidChangeDiagnostics(({ uris }) => {
        if (uris.some((uri) => uri.toString() === this.state.uri)) this.update();
      }),
      window.onDidChangeActiveTextEditor((editor) => this.follow(sheetEditor(editor)?.document)),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.tellCursor(textEditor)),
      workspace.onDidSaveTextDocument(({ uri }) => {
        if (this.state.beside !== 'nothing' && uri.toString() === this.state.uri) this.update();
      }),
    );
    webview.html = frameOf(
      webview.asWebviewUri(Uri.joinPath(extension, 'dist', 'panel.js')),
      webview.asWebviewUri(Uri.joinPath(extension, 'dist', 'panel.css')),
    );
  }

  dispose(): void {
    this.following.dispose();
  }

  reveal(document: TextDocument | undefined): void {
    this.panel.reveal(undefined, true);
    this.follow(document);
  }

  private follow(document: TextDocument | undefined): void {
    if (!document || document.uri.toString() === this.state.uri) return;
    this.state = { ...this.state, uri: document.uri.toString(), settings: [] };
    this.update();
  }

  private async take(message: FromPanel): Promise<void> {
    if (message.kind === 'ready') await this.update();
    else if (message.kind === 'ask') await this.ask();
    else if (message.kind === 'write') await this.write();
    else if (message.kind === 'reveal') await this.show(message.range);
    else {
      const { settings, beside, plots } = message;
      this.state = { ...this.state, settings, beside, plots };
      await this.update();
    }
  }

  private say(message: ToPanel): void {
    this.panel.webview.postMessage(message);
  }

  private async update(): Promise<void> {
    const turn = ++this.turn;
    const client = this.client();
    const { uri, settings, beside, plots } = this.state;
    const document = await workspace.openTextDocument(Uri.parse(uri)).then(undefined, () => undefined);
    if (!client?.isRunning() || !document) return this.say({ kind: 'nothing', text: 'Open a build sheet.' });
    const before = await earlier(document, beside);
    const params = { textDocument: { uri: client.code2ProtocolConverter.asUri(document.uri) }, settings, plots };
    const found = await client
      .sendRequest<Figures | null>('buildSheet/figures', {
        ...params,
        ...('text' in before && { before: before.text }),
      })
      .catch(() => null);
    if (turn !== this.turn || !found) return;
    this.say({ kind: 'figures', state: this.state, figures: found, ...('note' in before && { note: before.note }) });
    const editor = window.visibleTextEditors.find((one) => one.document === document);
    if (editor) this.tellCursor(editor);
  }

  private tellCursor({ document, selection }: TextEditor): void {
    if (document.uri.toString() !== this.state.uri) return;
    this.say({ kind: 'cursor', line: selection.active.line, character: selection.active.character });
  }

  private async show({ start, end }: Figures['findings'][number]['range']): Promise<TextEditor> {
    const uri = Uri.parse(this.state.uri);
    const open = window.visibleTextEditors.find(({ document }) => document.uri.toString() === this.state.uri);
    const selection = new Range(
      start.line,
      start.character,
      start.line,
      end.line > start.line ? start.character : end.character,
    );
    return window.showTextDocument(uri, { viewColumn: open?.viewColumn ?? ViewColumn.One, selection });
  }

  private async ask(): Promise<void> {
    await this.show({ start: { line: 0, character: 0 }, end: { line: 0, character: 0 } });
    await commands.executeCommand('buildSheet.ask');
  }

  private async write(): Promise<void> {
    const client = this.client();
    if (!client) return;
    const { uri, settings } = this.state;
    const textDocument = { uri: client.code2ProtocolConverter.asUri(Uri.parse(uri)) };
    const edit = await client.protocol2CodeConverter.asWorkspaceEdit(
      await client.sendRequest('buildSheet/whatIf', { textDocument, settings }),
    );
    if (edit && (await workspace.applyEdit(edit))) {
      this.state = { ...this.state, settings: [] };
      await this.update();
    } else
      window.showErrorMessage('Build Sheet: what was tried does not hold in the sheet as it is; nothing was written.');
  }
}

/** The sheet as it was: a text, or why there is none. */
async function earlier(document: TextDocument, beside: Beside): Promise<{ text: string } | { note: string } | object> {
  if (beside === 'nothing') return {};
  if (beside === 'saved') {
    const bytes = await workspace.fs.readFile(document.uri).then(undefined, () => undefined);
    return bytes ? { text: new TextDecoder().decode(bytes) } : { note: 'The sheet is not saved yet.' };
  }
  const git = workspace.isTrusted ? await gitIfOn() : undefined;
  if (!git?.getRepository(document.uri))
    return {
      note: 'There is no last commit to show: the sheet is not under version control, or the folder not trusted.',
    };
  const committed = await atLastCommit(git, document.uri);
  return committed ? { text: committed.getText() } : { note: NOT_IN_COMMIT };
}

/** The page of the panel: nothing may be loaded or run in it but our script and style. */
function frameOf(script: Uri, style: Uri): string {
  const nonce = crypto.randomUUID();
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Figures</title>
<link nonce="${nonce}" rel="stylesheet" href="${style}">
</head>
<body>
<main aria-live="off"><p>Working it out...</p></main>
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>`;
}
