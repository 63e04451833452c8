import { commands, type Disposable, window, workspace } from 'vscode';
import { atLastCommit, gitIfOn, NOT_IN_COMMIT } from './git.ts';
import type { Pages } from './pages.ts';

/** Shows the report of the active sheet beside that of the last commit, line by line. */
export function compareCommand(pages: Pages): Disposable {
  return commands.registerCommand('buildSheet.compareWithCommit', async () => {
    if (!workspace.isTrusted) {
      window.showInformationMessage(
        'Git is not asked in a folder that is not trusted: trust it to compare with a commit.',
      );
      return;
    }
    const document = window.activeTextEditor?.document;
    const git = await gitIfOn();
    if (!document || !git?.getRepository(document.uri)) {
      window.showInformationMessage('Open a build sheet that is under version control with git first.');
      return;
    }
    const before = await atLastCommit(git, document.uri);
    if (!before) {
      window.showInformationMessage(NOT_IN_COMMIT);
      return;
    }
    const [old, now] = [await pages.open('report', before.uri), await pages.open('report', document.uri)];
    if (!old || !now) return;
    const name = document.uri.path.split('/').at(-1);
    await commands.executeCommand('vscode.diff', old, now, `${name}: report at the last commit and now`);
  });
}
