import { Disposable, languages, StatusBarAlignment, type Uri, window } from 'vscode';
import type { BaseLanguageClient as LanguageClient } from 'vscode-languageclient';

type Count = { errors: number; warnings: number; open: number };
type Verdict = Count & { text: string; stages: readonly (Count & { name: string })[] };

/** Shows in the status bar what the sheet in the active editor comes to; a click opens the problems. */
export function statusBar(client: () => LanguageClient | undefined): Disposable {
  const item = window.createStatusBarItem('buildSheet.verdict', StatusBarAlignment.Left, 0);
  item.name = 'Build Sheet';
  item.command = 'workbench.actions.view.problems';
  let asked = 0;

  async function show(): Promise<void> {
    const document = window.activeTextEditor?.document;
    const running = client();
    const turn = ++asked;
    if (document?.languageId !== 'build-sheet' || !running?.isRunning()) {
      item.hide();
      return;
    }
    const params = { textDocument: { uri: running.code2ProtocolConverter.asUri(document.uri) } };
    const verdict = await running.sendRequest<Verdict | null>('buildSheet/verdict', params).catch(() => null);
    if (turn !== asked) return;
    if (!verdict) {
      item.hide();
      return;
    }
    const { errors, warnings, open } = verdict;
    const icon = errors ? 'error' : warnings ? 'warning' : open ? 'question' : 'pass';
    item.text = `$(${icon}) ${verdict.text}`;
    item.tooltip = tooltipOf(verdict);
    item.accessibilityInformation = { label: `Build sheet: ${verdict.text}` };
    item.show();
  }

  const isShown = (uris: readonly Uri[]) => {
    const shown = window.activeTextEditor?.document.uri.toString();
    return uris.some((uri) => uri.toString() === shown);
  };
  return Disposable.from(
    item,
    window.onDidChangeActiveTextEditor(show),
    languages.onDidChangeDiagnostics(({ uris }) => (isShown(uris) ? show() : undefined)),
  );
}

function tooltipOf({ stages }: Verdict): string {
  const lines = stages.map(
    ({ name, errors, warnings, open }) => `${name}: ${errors} errors, ${warnings} warnings, ${open} checks open`,
  );
  return ['Build sheet', ...lines, 'Click to see the problems.'].join('\n');
}
