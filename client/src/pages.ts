import {
  commands,
  Disposable,
  EventEmitter,
  MarkdownString,
  type TextDocumentContentProvider,
  Uri,
  window,
  workspace,
} from 'vscode';
import type { HoverMiddleware, LanguageClient } from 'vscode-languageclient/node';

const SCHEME = 'build-sheet-page';

type Place = { uri: string; position: { line: number; character: number } };
type Kind = 'work' | 'uses' | 'needs' | 'headroom';

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
      workspace.onDidCloseTextDocument(({ uri }) => this.texts.delete(uri.toString())),
      commands.registerCommand('buildSheet.showWork', (place?: Place) => this.show('work', place)),
      commands.registerCommand('buildSheet.showUses', () => this.show('uses')),
      commands.registerCommand('buildSheet.showNeeds', () => this.show('needs')),
      commands.registerCommand('buildSheet.showHeadroom', () => this.show('headroom')),
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
    const params = { textDocument: { uri: place.uri }, page, position: place.position };
    const found = await this.client()?.sendRequest<{ title: string; markdown: string } | null>(
      'buildSheet/page',
      params,
    );
    if (!found) {
      window.showInformationMessage('There is nothing to show here.');
      return;
    }
    const name = place.uri.split('/').at(-1) ?? '';
    const uri = Uri.from({
      scheme: SCHEME,
      path: `/${found.title} (${decodeURIComponent(name)}).md`,
      query: place.uri,
    });
    this.texts.set(uri.toString(), found.markdown);
    this.changed.fire(uri);
    await commands.executeCommand('markdown.showPreviewToSide', uri);
  }
}

function placeOfCursor(): Place | undefined {
  const editor = window.activeTextEditor;
  return editor && { uri: editor.document.uri.toString(), position: editor.selection.active };
}
