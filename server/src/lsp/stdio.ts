import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from './server.ts';
import type { Host } from './session.ts';

/** Answers the client this process was started by, over what its command line names; takes faults from elsewhere. */
export function listen(host: Host): (error: unknown) => void {
  const connection = createConnection(ProposedFeatures.all);
  const onFault = serve(connection, host);
  connection.listen();
  return onFault;
}
