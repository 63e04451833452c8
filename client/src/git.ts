import { type Event, extensions, type Uri } from 'vscode';

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

/** Git, once it knows its repositories; nothing where it is switched off or not there. */
export async function gitIfOn(): Promise<Git | undefined> {
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
