import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { fileOnDisk, filesBelowOnDisk, filesOnDisk, searchOnDisk } from './disk.ts';
import { listen } from './lsp/stdio.ts';

/** After so many faults outside any request the process ends, so that its client starts it afresh. */
const MOST_FAULTS = 20;

const pages = join(__dirname, '..', 'schemas', 'reference', 'rules');
const hasPages = existsSync(pages);

const onFault = listen({
  holds: (uri) => uri.startsWith('file:'),
  read: filesOnDisk(),
  readOnce: fileOnDisk,
  find: filesBelowOnDisk,
  search: searchOnDisk(),
  pageOf: (code) => (hasPages ? pathToFileURL(join(pages, `${code}.md`)).href : undefined),
});

let faults = 0;
function fault(error: unknown): void {
  if (++faults > MOST_FAULTS || isBrokenPipe(error)) process.exit(1);
  onFault(error);
}

/** Whether the client is gone. */
function isBrokenPipe(error: unknown): boolean {
  return error instanceof Error && 'code' in error && ['EPIPE', 'ERR_STREAM_DESTROYED'].includes(String(error.code));
}

process.on('uncaughtException', fault);
process.on('unhandledRejection', fault);
