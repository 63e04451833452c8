import { commands, type Disposable, type ExtensionContext, env, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient as LanguageClient } from 'vscode-languageclient';

/** Saves the report of the active sheet as one HTML file, and offers to open it. */
export function reportCommand(client: () => LanguageClient | undefined): Disposable {
  return commands.registerCommand('buildSheet.saveReport', async () => {
    const document = window.activeTextEditor?.document;
    const running = client();
    if (!document || !running) return;
    const params = { textDocument: { uri: running.code2ProtocolConverter.asUri(document.uri) } };
    const report = await running.sendRequest<{ html: string } | null>('buildSheet/report', params);
    if (!report) {
      window.showInformationMessage('Open a build sheet first.');
      return;
    }
    const target = await window.showSaveDialog({
      defaultUri: beside(document.uri),
      filters: { 'Report in HTML': ['html'] },
      title: 'Save the Report',
    });
    if (!target) return;
    await workspace.fs.writeFile(target, new TextEncoder().encode(report.html));
    const open = 'Open';
    if ((await window.showInformationMessage('The report is saved.', open)) === open) await env.openExternal(target);
  });
}

function beside(sheet: Uri): Uri {
  if (sheet.scheme !== 'file') return Uri.file('report.html');
  return sheet.with({ path: sheet.path.replace(/(\.build)?\.ya?ml$/i, '.report.html') });
}

/** Opens a shop of invented builds to try things on: a copy in the user's own storage, the same again when it is there. */
export function sampleCommand(context: ExtensionContext): Disposable {
  return commands.registerCommand('buildSheet.openSampleShop', async () => {
    const shop = Uri.joinPath(context.globalStorageUri, 'sample-shop');
    const isThere = await workspace.fs.stat(shop).then(
      () => true,
      () => false,
    );
    if (!isThere) await copyWhole(Uri.joinPath(context.extensionUri, 'samples'), shop);
    await commands.executeCommand('vscode.openFolder', shop, {
      forceNewWindow: workspace.workspaceFolders !== undefined,
    });
  });
}

/** Copies a folder so that another window never sees half of it, and only one of two that do so at once makes it. */
async function copyWhole(from: Uri, to: Uri): Promise<void> {
  const begun = to.with({ path: `${to.path}.${env.sessionId}` });
  await workspace.fs.copy(from, begun, { overwrite: true });
  try {
    await workspace.fs.rename(begun, to, { overwrite: false });
  } catch {
    await workspace.fs.delete(begun, { recursive: true });
  }
}
