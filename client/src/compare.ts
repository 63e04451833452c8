import { commands, type Disposable, extensions, type Uri, window, workspace } from 'vscode';
import type { Pages } from './pages.ts';

/** The part of the interface of VS Code's built-in git extension that is used here. */
type Git = { getAPI(version: 1): { toGitUri(uri: Uri, ref: string): Uri; getRepository(uri: Uri): unknown } };

/** Shows the report of the active sheet beside that of the last commit, line by line. */
export function compareCommand(pages: Pages): Disposable {
  return commands.registerCommand('buildSheet.compareWithCommit', async () => {
    const document = window.activeTextEditor?.document;
    const git = await gitExtension();
    if (!document || !git?.getRepository(document.uri)) {
      window.showInformationMessage('Open a build sheet that is under version control with git first.');
      return;
    }
    const before = git.toGitUri(document.uri, 'HEAD');
    try {
      await workspace.openTextDocument(before);
    } catch {
      window.showInformationMessage('The last commit does not hold this sheet yet.');
      return;
    }
    const [old, now] = [await pages.open('report', before), await pages.open('report', document.uri)];
    if (!old || !now) return;
    const name = document.uri.path.split('/').at(-1);
    await commands.executeCommand('vscode.diff', old, now, `${name}: report at the last commit and now`);
  });
}

async function gitExtension(): Promise<ReturnType<Git['getAPI']> | undefined> {
  const extension = extensions.getExtension<Git>('vscode.git');
  if (!extension) return undefined;
  return (extension.isActive ? extension.exports : await extension.activate()).getAPI(1);
}
