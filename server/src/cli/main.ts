import { realpathSync } from 'node:fs';
import { dialogOver } from './dialog.ts';
import type { Io } from './io.ts';
import { run } from './run.ts';
import { ExitCode } from './verb.ts';

const { argv, stdin, stdout, stderr } = process;
const { NO_COLOR, FORCE_COLOR, TERM } = process.env;

const io: Io = {
  cwd: process.cwd(),
  program: [process.execPath, realpathSync(argv[1] ?? '')],
  write: (text) => void stdout.write(text),
  complain: (text) => void stderr.write(`build-sheet: ${text}\n`),
  readInput: async () => {
    const chunks: Uint8Array[] = [];
    for await (const chunk of stdin) chunks.push(chunk);
    return Buffer.concat(chunks);
  },
  dialog: () => dialogOver(stdin, stdout),
  hasColor: !NO_COLOR && (Boolean(FORCE_COLOR) || (stdout.isTTY && TERM !== 'dumb')),
  columns: stdout.isTTY ? stdout.columns : undefined,
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
