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
import type { BaseLanguageClient as LanguageClient, WorkspaceEdit } from 'vscode-languageclient';
import {
  type Beside,
  type Figures,
  type FromPanel,
  type Range as Place,
  type Section,
  type State,
  sectionNames,
  type ToPanel,
  type Triable,
} from '../panel/messages.ts';
import { atLastCommit, gitIfOn, NOT_IN_COMMIT } from './git.ts';
import { KeptFigures } from './kept-figures.ts';

const VIEW = 'buildSheet.figures';

const BESIDES = { nothing: 'nothing', saved: 'the sheet as it is saved', commit: 'the last commit' };

/** How long what an edit does to the diagnostics is waited for, in ms: they stay away where they are the same. */
const NO_NEWS = 150;

/**
 * Shows the figures of the active sheet beside it. The panel comes back as it was, with what was tried, when the window is
 * loaded again or the panel opened again.
 */
export function figuresPanel(context: ExtensionContext, client: () => LanguageClient | undefined): Disposable {
  let shown: FiguresPanel | undefined;
  const kept = new KeptFigures(context.workspaceState);
  const take = (panel: WebviewPanel, state: State) => {
    const own = new FiguresPanel(panel, context.extensionUri, client, kept, state);
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
      take(panel, kept.at(editor.document.uri.toString(), kept.last));
    }),
    window.registerWebviewPanelSerializer(VIEW, {
      deserializeWebviewPanel: async (panel: WebviewPanel) => take(panel, kept.last),
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
  private due: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly panel: WebviewPanel,
    extension: Uri,
    private readonly client: () => LanguageClient | undefined,
    private readonly kept: KeptFigures,
    private state: State,
  ) {
    kept.keep(state);
    const { webview } = panel;
    webview.options = { enableScripts: true, localResourceRoots: [Uri.joinPath(extension, 'dist')] };
    this.following = Disposable.from(
      webview.onDidReceiveMessage((message: FromPanel) => this.take(message)),
      languages.onDidChangeDiagnostics(({ uris }) => {
        if (uris.some((uri) => uri.toString() === this.state.uri)) this.update();
      }),
      workspace.onDidChangeTextDocument(({ document }) => {
        if (document.uri.toString() !== this.state.uri) return;
        clearTimeout(this.due);
        this.due = setTimeout(() => this.update(), NO_NEWS);
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
    clearTimeout(this.due);
    this.turn++;
    this.following.dispose();
  }

  reveal(document: TextDocument | undefined): void {
    this.panel.reveal(undefined, true);
    this.follow(document);
  }

  private follow(document: TextDocument | undefined): void {
    if (!document || document.uri.toString() === this.state.uri) return;
    this.become(this.kept.at(document.uri.toString(), this.state));
    this.update();
  }

  private become(state: State): void {
    this.state = state;
    this.kept.keep(state);
  }

  /** The client of the server, once that runs; nothing where there is none. */
  private async running(): Promise<LanguageClient | undefined> {
    const client = this.client();
    if (!client?.needsStop()) return undefined;
    await client.start().catch(() => undefined);
    return client.isRunning() ? client : undefined;
  }

  private async take(message: FromPanel): Promise<void> {
    if (message.kind === 'ready') await this.update();
    else if (message.kind === 'ask') await this.ask();
    else if (message.kind === 'write') await this.write();
    else if (message.kind === 'reveal') await this.show(message.range);
    else if (message.kind === 'triable') await this.tellTriable();
    else {
      this.become({ ...this.state, ...message.state });
      await this.update();
    }
  }

  private say(message: ToPanel): void {
    this.panel.webview.postMessage(message);
  }

  /** Asks the server about the sheet that is shown; nothing where there is no answer. */
  private async asked<Answer>(method: string, params: object = {}): Promise<Answer | undefined> {
    const client = await this.running();
    if (!client) return undefined;
    const textDocument = { uri: client.code2ProtocolConverter.asUri(Uri.parse(this.state.uri)) };
    const answer = await client.sendRequest<Answer | null>(method, { textDocument, ...params }).catch(() => null);
    return answer ?? undefined;
  }

  /** Shows the sheet as it is now: its figures, then what takes longer, unless there is something newer to show meanwhile. */
  private async update(): Promise<void> {
    clearTimeout(this.due);
    const turn = ++this.turn;
    const { uri, settings, beside, shut } = this.state;
    const document = await workspace.openTextDocument(Uri.parse(uri)).then(undefined, () => undefined);
    const client = await this.running();
    if (turn !== this.turn || !this.panel.visible) return;
    if (!document || !client) return this.say({ kind: 'nothing', text: 'Open a build sheet.' });
    const before = await earlier(document, beside);
    const asked = { settings, shut, ...('text' in before && { before: before.text }) };
    const figures = await this.asked<Figures>('buildSheet/figures', asked);
    if (turn !== this.turn || !figures) return;
    const note = 'note' in before && { note: before.note };
    this.say({ kind: 'figures', state: this.state, besides: BESIDES, figures, ...note });
    const editor = window.visibleTextEditors.find((one) => one.document === document);
    if (editor) this.tellCursor(editor);
    for (const name of sectionNames.filter((one) => !shut.includes(one))) {
      const section = await this.asked<Section>('buildSheet/figuresSection', { section: name });
      if (turn !== this.turn) return;
      if (section) this.say({ kind: 'section', name, section });
    }
  }

  private async tellTriable(): Promise<void> {
    const fields = await this.asked<readonly Triable[]>('buildSheet/triable');
    if (fields) this.say({ kind: 'triable', fields });
  }

  private tellCursor({ document, selection }: TextEditor): void {
    if (document.uri.toString() !== this.state.uri) return;
    this.say({ kind: 'cursor', line: selection.active.line, character: selection.active.character });
  }

  private async show({ start, end }: Place): Promise<TextEditor> {
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
    const answer = await this.asked<WorkspaceEdit>('buildSheet/whatIf', { settings: this.state.settings });
    const edit = await this.client()?.protocol2CodeConverter.asWorkspaceEdit(answer);
    if (edit && (await workspace.applyEdit(edit))) {
      this.become({ ...this.state, settings: [], turn: this.state.turn + 1 });
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
