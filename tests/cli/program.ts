import { type SpawnSyncReturns, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Io } from '../../server/src/cli/io.ts';
import { run } from '../../server/src/cli/run.ts';

/** The program as it is delivered. */
export const PROGRAM = resolve('dist/build-sheet.cjs');

/** Where the programs of the tests keep what V8 compiled; not where those of a user do. */
export const CACHE = join(tmpdir(), 'build-sheet-test-cache');

/** What is there besides the defaults: the standard input, and who answers to what is shown with a question. */
type World = Partial<Io> & { input?: string | Uint8Array; answer?: (shown: string) => string | undefined };

type Ran = { code: number; out: string; complaints: string };

/** Runs a command line within the test. */
export async function program(
  args: readonly string[],
  { cwd = process.cwd(), input = '', answer = () => undefined, ...rest }: World = {},
): Promise<Ran> {
  let out = '';
  let complaints = '';
  const io: Io = {
    cwd,
    program: [process.execPath, PROGRAM],
    write: (text) => {
      out += text;
    },
    complain: (text) => {
      complaints += `build-sheet: ${text}\n`;
    },
    show: () => {},
    keeping: undefined,
    threads: undefined,
    readInput: async () => Buffer.from(input),
    dialog: async () => {
      let seen = 0;
      return {
        line: async (prompt) => {
          const shown = out.slice(seen) + prompt;
          out += prompt;
          seen = out.length;
          return answer(shown);
        },
        close: () => {},
      };
    },
    hasColor: false,
    columns: undefined,
    isAttended: false,
    stopped: () => new Promise(() => {}),
    ...rest,
  };
  const ran = await run(args, io);
  return { code: ran.code, out: out + (ran.out ?? ''), complaints };
}

/** Runs the program as it is delivered, in a process of its own. */
export function delivered(args: readonly string[], cwd: string, input = ''): SpawnSyncReturns<string> {
  mustBeNew();
  const env = { ...process.env, XDG_CACHE_HOME: CACHE, LOCALAPPDATA: CACHE };
  return spawnSync(process.execPath, [PROGRAM, ...args], { cwd, input, encoding: 'utf8', env });
}

/** Refuses a program that is older than what it is built from. */
export function mustBeNew(): void {
  if (!existsSync(PROGRAM)) throw new Error('run `npm run build` first');
  const built = statSync(PROGRAM).mtimeMs;
  for (const file of readdirSync('server/src', { recursive: true, encoding: 'utf8' })) {
    const { mtimeMs } = statSync(join('server/src', file));
    if (file.endsWith('.ts') && !file.startsWith('generated') && mtimeMs > built)
      throw new Error(`server/src/${file} is newer than dist/build-sheet.cjs: run \`npm run build\``);
  }
}

/** A folder with files of these texts, gone after the test. */
export function folderWith(files: Record<string, string | Uint8Array>): string {
  const folder = mkdtempSync(join(tmpdir(), 'sheets-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  for (const [name, text] of Object.entries(files)) {
    const file = join(folder, name);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
  }
  return folder;
}
