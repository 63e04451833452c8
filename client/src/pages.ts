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

/** The hover's way to the work behind a field: the only command a hover of ours may run. */
export const withLinks: NonNullable<HoverMiddleware['provideHover']> = async (document, position, token, next) => {
  const hover = await next(document, position, token);
  for (const content of hover?.contents ?? []) {
    if (content instanceof MarkdownString) content.isTrusted = { enabledCommands: ['buildSheet.showWork'] };
  }
  return hover;
};

/** Pages of the server, shown beside the sheet as documents that cannot be edited. */
export class Pages implements TextDocumentContentProvider, Disposable {
  private readonly texts = new Map<string, string>();
  private readonly changed = new EventEmitter<Uri>();
  private readonly registered: Disposable;
  readonly onDidChange = this.changed.event;

  constructor(private readonly client: () => LanguageClient | undefined) {
    this.registered = Disposable.from(
      this.changed,
      workspace.registerTextDocumentContentProvider(SCHEME, this),
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
    this.registered.dispose();
  }

  private async show(page: Kind, place = placeOfCursor()): Promise<void> {
    if (!place) {
      window.showInformationMessage('Open a build sheet first.');
      return;
    }
    const uri = await this.open(page, Uri.parse(place.uri), place.position);
    if (uri) await commands.executeCommand('markdown.showPreviewToSide', uri);
    else window.showInformationMessage('There is nothing to show here.');
  }

  /** Has a page made about a sheet; its address, or nothing where there is nothing to show. */
  async open(page: Kind, sheet: Uri, position?: Place['position']): Promise<Uri | undefined> {
    const client = this.client();
    if (!client) return undefined;
    const textDocument = { uri: client.code2ProtocolConverter.asUri(sheet) };
    const found = await window.withProgress({ location: ProgressLocation.Window, title: 'Build Sheet' }, () =>
      client.sendRequest<{ title: string; markdown: string } | null>('buildSheet/page', {
        textDocument,
        page,
        position,
      }),
    );
    if (!found) return undefined;
    const name = sheet.path.split('/').at(-1) ?? '';
    const uri = Uri.from({ scheme: SCHEME, path: `/${found.title} (${name}).md`, query: sheet.toString() });
    this.texts.delete(uri.toString());
    this.texts.set(uri.toString(), found.markdown);
    const [oldest] = this.texts.keys();
    if (oldest && this.texts.size > KEPT) this.texts.delete(oldest);
    this.changed.fire(uri);
    return uri;
  }
}

function placeOfCursor(): Place | undefined {
  const editor = window.activeTextEditor;
  return editor && { uri: editor.document.uri.toString(), position: editor.selection.active };
}
