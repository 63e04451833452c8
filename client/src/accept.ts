import { commands, type Disposable, window, workspace } from 'vscode';
import type { BaseLanguageClient as LanguageClient } from 'vscode-languageclient';

type Found = { uri: string; rule: string; stage?: string };

/** Asks why a finding is accepted and writes it into the sheet; without a reason nothing is accepted. */
export function acceptCommand(client: () => LanguageClient | undefined): Disposable {
  return commands.registerCommand('buildSheet.accept', async ({ uri, rule, stage }: Found) => {
    const reason = await window.showInputBox({
      title: `Accept ${rule}${stage === undefined ? '' : ` in "${stage}"`}`,
      prompt: 'Why is it accepted? Whoever reads the sheet later sees the reason.',
      ignoreFocusOut: true,
      validateInput: (text) =>
        text.trim() === '' ? 'Give the reason, or press Escape to leave the finding.' : undefined,
    });
    const running = client();
    if (!reason || !running) return;
    const params = { textDocument: { uri }, rule, stage, reason };
    const edit = await running.protocol2CodeConverter.asWorkspaceEdit(
      await running.sendRequest('buildSheet/accept', params),
    );
    if (!edit || !(await workspace.applyEdit(edit)))
      window.showErrorMessage('Build Sheet: the sheet has no room for it, or changed meanwhile; nothing was written.');
  });
}
