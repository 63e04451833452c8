import { commands, type ExtensionContext, type LogOutputChannel, window } from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { acceptCommand } from './accept.ts';
import { ask } from './ask.ts';
import { chooseAllParts, choosePart } from './choose-part.ts';
import { compareCommand } from './compare.ts';
import { figuresPanel } from './figures.ts';
import { giveFiles } from './files.ts';
import { beginSheet } from './new-sheet.ts';
import { Pages, withLinks } from './pages.ts';
import { reportCommand, sampleCommand } from './report.ts';
import { statusBar } from './status.ts';

/** Makes a client of the server where the extension runs: a process of its own, or a worker. */
export type MakeClient = (options: LanguageClientOptions) => BaseLanguageClient;

/** A server that crashes is restarted this many times within three minutes; then the client gives up and says so. */
const restartLimit = 3;

/** Sheets, catalogs and house rules by their language, wherever they come from, and by their names where another language is set. */
const documentSelector = [
  { language: 'build-sheet' },
  { language: 'build-sheet-config' },
  { language: 'build-sheet-parts' },
  { pattern: '**/*.build.{yaml,yml}' },
  { pattern: '**/build-sheet.config.{yaml,yml}' },
  { pattern: '**/*.parts.{yaml,yml}' },
];

let client: BaseLanguageClient | undefined;

function startClient(make: MakeClient, outputChannel: LogOutputChannel): Promise<void> {
  client = make({
    documentSelector,
    connectionOptions: { maxRestartCount: restartLimit },
    diagnosticPullOptions: { onChange: true, onFocus: true },
    outputChannel,
    initializationOptions: { opensPages: true, asksReasons: true, givesFiles: true },
    middleware: { provideHover: withLinks },
  });
  giveFiles(client);
  return client.start();
}

/**
 * Starts the language server and registers the extension's commands. Rejects when the server can't be started.
 * `hasGit` tells whether the place it runs in can have git.
 */
export async function begin(
  context: ExtensionContext,
  make: MakeClient,
  { hasGit }: { hasGit: boolean },
): Promise<void> {
  const output = window.createOutputChannel('Build Sheet', { log: true });
  const running = () => client;
  const pages = new Pages(running);
  await commands.executeCommand('setContext', 'buildSheet.hasGit', hasGit);
  context.subscriptions.push(
    output,
    pages,
    acceptCommand(running),
    compareCommand(pages),
    figuresPanel(context, running),
    reportCommand(running),
    sampleCommand(context),
    statusBar(running),
    commands.registerCommand('buildSheet.ask', async () => {
      const document = window.activeTextEditor?.document;
      if (client && document) await ask(client, document);
    }),
    commands.registerCommand('buildSheet.choosePart', async (uri?: string, slot?: string) => {
      if (client) await choosePart(client, uri, slot);
    }),
    commands.registerCommand('buildSheet.chooseAllParts', async () => {
      if (client) await chooseAllParts(client);
    }),
    commands.registerCommand('buildSheet.newSheet', async () => {
      if (client) await beginSheet(client);
    }),
    commands.registerCommand('buildSheet.showOutput', () => output.show()),
    commands.registerCommand('buildSheet.restartServer', async () => {
      await end().catch((error) => output.warn(`The server did not stop by itself: ${error}`));
      await startClient(make, output);
    }),
  );
  await startClient(make, output);
}

/** Stops the language server, one that is starting as soon as it runs; one that has crashed or given up counts as stopped. */
export async function end(): Promise<void> {
  if (!client?.needsStop()) return;
  await client.start();
  await client.stop();
}
