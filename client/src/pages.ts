import {
  commands,
  Disposable,
  EventEmitter,
  MarkdownString,
  ProgressLocation,
  type TextDocumentContentProvider,
  Uri,
  window,
  workspace,
} from 'vscode';
import type { HoverMiddleware, BaseLanguageClient as LanguageClient } from 'vscode-languageclient';

const SCHEME = 'build-sheet-page';

/** So many pages are kept; one that is opened again may be asked for before the one closed is given up. */
const KEPT = 20;

type Place = { uri: string; position: { line: number; character: number } };
type Kind = 'work' | 'uses' | 'needs' | 'headroom' | 'report';
/** What a page is about. */
type Asked = { page: Kind; sheet: Uri; position: Place['position'] | undefined };

/** How long nobody has typed, in ms, before open pages are made anew. */
const AT_REST = 800;

/** The hover's way to the work behind a field: the only command a hover of ours may run. */
export const withLinks: NonNullable<HoverMiddleware['provideHover']> = async (document, position, token, next) => {
  const hover = await next(document, position, token);
  for (const content of hover?.contents ?? []) {
    if (content instanceof MarkdownString) content.isTrusted = { enabledCommands: ['buildSheet.showWork'] };
  }
  return hover;
};

/** Pages of the server, shown beside the sheet as documents that cannot be edited, and made anew when the sheet has changed. */
export class Pages implements TextDocumentContentProvider, Disposable {
  private readonly texts = new Map<string, string>();
  private readonly asked = new Map<string, Asked>();
  private readonly resting = new Map<string, ReturnType<typeof setTimeout>>();
  private readonly changed = new EventEmitter<Uri>();
  private readonly registered: Disposable;
  readonly onDidChange = this.changed.event;

  constructor(private readonly client: () => LanguageClient | undefined) {
    this.registered = Disposable.from(
      this.changed,
      workspace.registerTextDocumentContentProvider(SCHEME, this),
      workspace.onDidChangeTextDocument(({ document }) => this.renewAtRest(document.uri)),
      commands.registerCommand('buildSheet.showWork', (place?: Place) => this.show('work', place)),
      commands.registerCommand('buildSheet.showUses', () => this.show('uses')),
      commands.registerCommand('buildSheet.showNeeds', () => this.show('needs')),
      commands.registerCommand('buildSheet.showHeadroom', () => this.show('headroom')),
      commands.registerCommand('buildSheet.showReport', () => this.show('report')),
    );
  }

  provideTextDocumentContent(uri: Uri): string {
    return this.texts.get(uri.toString()) ?? '';
  }

  dispose(): void {
    for (const timer of this.resting.values()) clearTimeout(timer);
    this.registered.dispose();
  }

  private async show(page: Kind, place = placeOfCursor()): Promise<void> {
    if (!place) {
      window.showInformationMessage('Open a build sheet first.');
      return;
    }
    const editor = window.activeTextEditor;
    const uri = await this.open(page, Uri.parse(place.uri), place.position);
    if (!uri) {
      window.showInformationMessage('There is nothing to show here.');
      return;
    }
    await commands.executeCommand('markdown.showPreviewToSide', uri);
    if (editor) await window.showTextDocument(editor.document, editor.viewColumn); // one goes on writing beside the page
  }

  /** Has a page made about a sheet; its address, or nothing where there is nothing to show. */
  async open(page: Kind, sheet: Uri, position?: Place['position']): Promise<Uri | undefined> {
    const asked = { page, sheet, position };
    const found = await window.withProgress({ location: ProgressLocation.Window, title: 'Build Sheet' }, () =>
      this.made(asked),
    );
    if (!found) return undefined;
    const name = sheet.path.split('/').at(-1) ?? '';
    const uri = Uri.from({ scheme: SCHEME, path: `/${found.title} (${name}).md`, query: sheet.toString() });
    this.put(uri, asked, found.markdown);
    return uri;
  }

  private async made({ page, sheet, position }: Asked): Promise<{ title: string; markdown: string } | null> {
    const client = this.client();
    if (!client) return null;
    const textDocument = { uri: client.code2ProtocolConverter.asUri(sheet) };
    return client.sendRequest('buildSheet/page', { textDocument, page, position });
  }

  private put(uri: Uri, asked: Asked, text: string): void {
    const key = uri.toString();
    for (const kept of [this.texts, this.asked]) kept.delete(key);
    this.texts.set(key, text);
    this.asked.set(key, asked);
    const [oldest] = this.texts.keys();
    if (oldest && this.texts.size > KEPT) for (const kept of [this.texts, this.asked]) kept.delete(oldest);
    this.changed.fire(uri);
  }

  /** Makes the open pages about a sheet anew once nobody types in it any more. */
  private renewAtRest(sheet: Uri): void {
    const key = sheet.toString();
    clearTimeout(this.resting.get(key));
    this.resting.delete(key);
    if (![...this.asked.values()].some((asked) => asked.sheet.toString() === key)) return;
    this.resting.set(
      key,
      setTimeout(() => this.renew(key), AT_REST),
    );
  }

  private async renew(sheet: string): Promise<void> {
    this.resting.delete(sheet);
    for (const { uri } of workspace.textDocuments) {
      const asked = this.asked.get(uri.toString());
      if (asked?.sheet.toString() !== sheet) continue;
      const found = await this.made(asked).catch(() => null); // a server that is gone leaves the page as it is
      const isSame = found && uri.path.startsWith(`/${found.title} (`); // the field may have moved from its place
      if (isSame && !this.resting.has(sheet)) this.put(uri, asked, found.markdown);
    }
  }
}

function placeOfCursor(): Place | undefined {
  const editor = window.activeTextEditor;
  return editor && { uri: editor.document.uri.toString(), position: editor.selection.active };
}
