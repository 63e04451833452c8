import { commands, type ExtensionContext, workspace } from 'vscode';
import {
  LanguageClient,
  type LanguageClientOptions,
  type ServerOptions,
  TransportKind,
} from 'vscode-languageclient/node';

/** A server that crashes is restarted this many times within three minutes; then the client gives up and says so. */
const restartLimit = 3;

let client: LanguageClient | undefined;

/** Starts the language server and registers the extension's commands. Rejects when the server can't be started. */
export async function activate(context: ExtensionContext): Promise<void> {
  const module = context.asAbsolutePath('dist/server.cjs');
  const server: ServerOptions = {
    run: { module, transport: TransportKind.ipc },
    debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6009'] } },
  };
  const watcher = workspace.createFileSystemWatcher('**/{build-sheet.config.{yaml,yml},*.parts.{yaml,yml}}');
  const options: LanguageClientOptions = {
    documentSelector: [{ language: 'build-sheet' }, { language: 'build-sheet-config' }],
    synchronize: { fileEvents: watcher },
    connectionOptions: { maxRestartCount: restartLimit },
    diagnosticPullOptions: { onChange: true, onFocus: true },
  };
  client = new LanguageClient('buildSheet', 'Build Sheet', server, options);
  context.subscriptions.push(
    watcher,
    client,
    commands.registerCommand('buildSheet.restartServer', () => client?.restart()),
    commands.registerCommand('buildSheet.showOutput', () => client?.outputChannel.show()),
  );
  await client.start();
}

/** Stops the language server. */
export function deactivate(): Promise<void> | undefined {
  return client?.stop();
}
