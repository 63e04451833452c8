import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from 'vscode-languageserver/browser';
import { absent } from '../workspace/found-file.ts';
import { serve } from './server.ts';
import type { Host } from './session.ts';

/** A place without files of its own: all come from the client. */
const nothing: Host = {
  holds: () => false,
  read: async () => absent,
  readOnce: async () => absent,
  find: async () => ({ uris: [], complaints: [] }),
  search: async () => [],
  pageOf: () => undefined,
};

/** Answers the page or extension that started this worker, over its messages; takes faults from elsewhere. */
export function listen(port: ConstructorParameters<typeof BrowserMessageReader>[0]): (error: unknown) => void {
  const reader = new BrowserMessageReader(port);
  const connection = createConnection(ProposedFeatures.all, reader, new BrowserMessageWriter(port));
  const onFault = serve(connection, nothing);
  connection.listen();
  return onFault;
}
