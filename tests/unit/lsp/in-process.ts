import { PassThrough } from 'node:stream';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import type { ClientCapabilities, Diagnostic, PublishDiagnosticsParams } from 'vscode-languageserver';
import { createConnection } from 'vscode-languageserver/node';
import { serve } from '../../../server/src/lsp/server.ts';
import type { Host } from '../../../server/src/lsp/session.ts';
import type { Service } from '../../../server/src/service.ts';

export const SHEET = 'file:///shop/one.build.yaml';

/** A host with an empty disk. */
export const nothing: Host = {
  holds: () => true,
  read: async () => ({ kind: 'absent' }),
  search: async () => [],
  readOnce: async () => ({ kind: 'absent' }),
  find: async () => ({ uris: [], complaints: [] }),
  pageOf: () => undefined,
};

/** The server in this process, with a service and a host of the test's own, and the client's end of its connection. */
export class InProcess {
  readonly logged: string[] = [];
  readonly published: PublishDiagnosticsParams[] = [];
  refreshes = 0;

  private constructor(readonly connection: MessageConnection) {}

  static async start(service: Service, host: Host, capabilities: ClientCapabilities): Promise<InProcess> {
    const [toServer, toClient] = [new PassThrough(), new PassThrough()];
    const server = createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient));
    serve(server, host, service);
    server.listen();
    const connection = createMessageConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer));
    const client = new InProcess(connection);
    connection.onNotification('window/logMessage', ({ message }) => {
      client.logged.push(message);
    });
    connection.onNotification('textDocument/publishDiagnostics', (params) => {
      client.published.push(params);
    });
    connection.onRequest('client/registerCapability', () => null);
    connection.onRequest('workspace/diagnostic/refresh', () => {
      client.refreshes++;
      return null;
    });
    connection.listen();
    await connection.sendRequest('initialize', { processId: null, rootUri: 'file:///shop', capabilities });
    await connection.sendNotification('initialized', {});
    return client;
  }

  async open(text: string, version = 1): Promise<void> {
    const textDocument = { uri: SHEET, languageId: 'build-sheet', version, text };
    await this.connection.sendNotification('textDocument/didOpen', { textDocument });
  }

  async change(text: string, version: number): Promise<void> {
    const textDocument = { uri: SHEET, version };
    await this.connection.sendNotification('textDocument/didChange', { textDocument, contentChanges: [{ text }] });
  }

  ask<Answer>(method: string, params: object = {}): Promise<Answer> {
    return this.connection.sendRequest(`textDocument/${method}`, { textDocument: { uri: SHEET }, ...params });
  }

  async pull(): Promise<Diagnostic[]> {
    return (await this.ask<{ items: Diagnostic[] }>('diagnostic')).items;
  }

  end(): void {
    this.connection.dispose();
  }
}
