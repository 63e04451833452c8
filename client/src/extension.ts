import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { begin, end } from './activation.ts';

/** Starts the server in a process of its own. Rejects when it can't be started. */
export function activate(context: ExtensionContext): Promise<void> {
  const module = context.asAbsolutePath('dist/server.cjs');
  const run = { module, transport: TransportKind.ipc };
  const debug = { ...run, options: { execArgv: ['--nolazy', '--inspect=6009'] } };
  return begin(context, (options) => new LanguageClient('buildSheet', 'Build Sheet', { run, debug }, options), {
    hasGit: true,
  });
}

export const deactivate = end;
