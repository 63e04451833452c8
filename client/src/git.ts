import { type Event, extensions, type TextDocument, type Uri, workspace } from 'vscode';

/** The part of the interface of VS Code's built-in git extension that is used here. */
type Git = {
  state: 'uninitialized' | 'initialized';
  onDidChangeState: Event<Git['state']>;
  toGitUri(uri: Uri, ref: string): Uri;
  getRepository(uri: Uri): unknown;
};
type GitExtension = { enabled: boolean; getAPI(version: 1): Git };

/** Said of a text that is not committed yet. */
export const NOT_IN_COMMIT = 'The last commit does not hold this sheet yet.';

/** How long git may look for repositories, in ms. */
const PATIENCE = 10_000;

/** Git, once it knows its repositories; nothing where it is switched off or not there. */
export async function gitIfOn(): Promise<Git | undefined> {
  const extension = extensions.getExtension<GitExtension>('vscode.git');
  const exported = extension && (extension.isActive ? extension.exports : await extension.activate());
  if (!exported?.enabled) return undefined;
  const git = exported.getAPI(1);
  if (git.state === 'uninitialized') await initialized(git);
  return git;
}

/** A text as it stands in the last commit; nothing where that does not hold it. */
export async function atLastCommit(git: Git, uri: Uri): Promise<TextDocument | undefined> {
  try {
    return await workspace.openTextDocument(git.toGitUri(uri, 'HEAD'));
  } catch {
    return undefined;
  }
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
