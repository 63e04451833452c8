import { LSPClient, type LSPClientExtension, type Transport } from '@codemirror/lsp-client';
import type { Files } from './files.ts';
import { OWN } from './files.ts';
import { safeHtml } from './safe-html.ts';

type Message = { id?: number | string; method?: string; params?: unknown };

/** How long an answer may take, in ms: choosing parts tries many. */
const PATIENCE = 60_000;

const capabilities = {
  workspace: { diagnostics: { refreshSupport: true }, workspaceFolders: false, configuration: false },
  textDocument: {
    publishDiagnostics: { relatedInformation: false },
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'refactor'] } },
      dataSupport: true,
      resolveSupport: { properties: ['edit'] },
    },
  },
};

/** Starts the server in a worker and a client of it; `again` is called when what is found may be another for the same text. */
export function startServer(files: Files, again: () => void, extensions: readonly LSPClientExtension[]): LSPClient {
  const worker = new Worker('server-worker.js', { name: 'Build Sheet' });
  const answers: Record<string, (params: never) => unknown> = {
    'buildSheet/readFile': ({ uri }: { uri: string }) => {
      const text = files.read(uri);
      return text === undefined ? { missing: 'absent' } : { bytes: new TextEncoder().encode(text) };
    },
    'buildSheet/readFolder': ({ uri }: { uri: string }) => ({ entries: files.entries(uri) }),
    'workspace/diagnostic/refresh': () => {
      again();
      return null;
    },
  };
  const client = new LSPClient({
    rootUri: OWN,
    timeout: PATIENCE,
    sanitizeHTML: safeHtml,
    initializationOptions: { givesFiles: true, settings: settingsFor(files) },
    extensions: [{ clientCapabilities: capabilities }, ...extensions],
  });
  return client.connect(transportOver(worker, answers));
}

/** What the server is told to look at. */
export function settingsFor(files: Files) {
  return { wholeFolder: false, catalogs: files.hasCatalogs ? ['**/*.parts.{yaml,yml}'] : [] };
}

/** Messages to and from a worker; what the server asks is answered here, since the client answers nothing. */
function transportOver(worker: Worker, answers: Record<string, (params: never) => unknown>): Transport {
  const handlers = new Set<(message: string) => void>();
  worker.addEventListener('message', ({ data }: MessageEvent<Message>) => {
    const { id, method } = data;
    if (id === undefined || method === undefined) {
      for (const handle of handlers) handle(JSON.stringify(data));
      return;
    }
    const answer = answers[method];
    const result = answer
      ? { result: answer(data.params as never) }
      : { error: { code: -32601, message: 'not known' } };
    worker.postMessage({ jsonrpc: '2.0', id, ...result });
  });
  return {
    send: (message) => worker.postMessage(JSON.parse(message)),
    subscribe: (handle) => handlers.add(handle),
    unsubscribe: (handle) => handlers.delete(handle),
  };
}
