import { realpathSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { isMainThread, Worker } from 'node:worker_threads';
import { version } from '../../../package.json';
import { cacheFolder } from './cache-folder.ts';
import type { Io } from './io.ts';
import { run } from './run.ts';
import { ExitCode } from './verb.ts';

/** What the program was built of, as a hash. */
declare const BUILD: string;

/** More threads than this take more memory than time. */
const MOST_THREADS = 4;

/** A terminal that is narrower breaks lines itself; one that does not say how wide it is has as many as most. */
const LEAST_COLUMNS = 40;
const UNTOLD_COLUMNS = 80;

if (isMainThread) runMain();
else void import('./thread.ts').then(({ workAsThread }) => workAsThread());

function runMain(): void {
  const { argv, stdin, stdout, stderr } = process;
  const { NO_COLOR, FORCE_COLOR, TERM } = process.env;

  const program = realpathSync(argv[1] ?? '');
  const io: Io = {
    cwd: process.cwd(),
    program: [process.execPath, program],
    write: (text) => void stdout.write(text),
    show: (text) => void stderr.write(text),
    keeping: { folder: join(cacheFolder(), 'checks'), version: `${version} ${BUILD} ${process.versions.node}` },
    threads: {
      count: Math.min(MOST_THREADS, availableParallelism()) - 1,
      start: (orders) => new Worker(program, { workerData: orders }),
    },
    complain: (text) => void stderr.write(`build-sheet: ${text}\n`),
    readInput: async () => {
      const chunks: Uint8Array[] = [];
      for await (const chunk of stdin) chunks.push(chunk);
      return Buffer.concat(chunks);
    },
    dialog: async () => (await import('./dialog.ts')).dialogOver(stdin, stdout),
    hasColor: !NO_COLOR && (isSet(FORCE_COLOR) || (stdout.isTTY && TERM !== 'dumb')),
    columns: stdout.isTTY ? Math.max(LEAST_COLUMNS, stdout.columns || UNTOLD_COLUMNS) : undefined,
    isAttended: stderr.isTTY,
    stopped: () => new Promise((stop) => process.once('SIGINT', () => stop())),
  };

  /** A reader that has seen enough, such as `head`, ends the program; what was found by then counts. */
  for (const stream of [stdout, stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      process.exit(error.code === 'EPIPE' ? process.exitCode : ExitCode.fault);
    });

  void run(argv.slice(2), io).then(({ code, out }) => {
    process.exitCode = code;
    if (out) stdout.write(out);
  });
}

function isSet(variable: string | undefined): boolean {
  return variable !== undefined && variable !== '' && variable !== '0';
}
