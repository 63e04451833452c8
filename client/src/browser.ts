import { type ExtensionContext, Uri, workspace } from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient } from 'vscode-languageclient/browser';
import { begin, end } from './activation.ts';

declare class Worker {
  constructor(address: string, options: { name: string });
  terminate(): void;
}

let worker: Worker | undefined;

/** Starts the server in a worker of the browser. Rejects when it can't be started. */
export function activate(context: ExtensionContext): Promise<void> {
  const script = Uri.joinPath(context.extensionUri, 'dist', 'server-worker.js');
  const start = async () => {
    worker?.terminate();
    worker = new Worker(await addressOf(script), { name: 'Build Sheet' });
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  return begin(context, (options) => new LanguageClient('buildSheet', 'Build Sheet', start, options), {
    hasGit: false,
  });
}

/** Where a worker can load a script from: an extension that is installed on a server is not reached by its address. */
async function addressOf(script: Uri): Promise<string> {
  if (script.scheme === 'http' || script.scheme === 'https') return script.toString(true);
  const bytes = new Uint8Array(await workspace.fs.readFile(script));
  return URL.createObjectURL(new Blob([bytes], { type: 'text/javascript' }));
}

export async function deactivate(): Promise<void> {
  await end();
  worker?.terminate();
}
