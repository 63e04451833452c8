import { commands, type Disposable, type Event, extensions, type Uri, window, workspace } from 'vscode';
import type { Pages } from './pages.ts';

/** The part of the interface of VS Code's built-in git extension that is used here. */
type Git = {
  state: 'uninitialized' | 'initialized';
  onDidChangeState: Event<Git['state']>;
  toGitUri(uri: Uri, ref: string): Uri;
  getRepository(uri: Uri): unknown;
};
type GitExtension = { enabled: boolean; getAPI(version: 1): Git };

/** How long git may look for repositories, in ms. */
const PATIENCE = 10_000;

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

/** Git, once it knows its repositories; nothing where it is switched off or not there. */
async function gitIfOn(): Promise<Git | undefined> {
  const extension = extensions.getExtension<GitExtension>('vscode.git');
  const exported = extension && (extension.isActive ? extension.exports : await extension.activate());
  if (!exported?.enabled) return undefined;
  const git = exported.getAPI(1);
  if (git.state === 'uninitialized') await initialized(git);
  return git;
}

function initialized({ onDidChangeState }: Git): Promise<void> {
  return new Promise((ok) => {
    const timer = setTimeout(ok, PATIENCE);
    const listening = onDidChangeState(() => {
      clearTimeout(timer);
      listening.dispose();
      ok();
    });
  });
}
