import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { readdir } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { filesNow, searchOnDisk } from '../disk.ts';
import { textFile } from '../workspace/found-file.ts';
import type { Files } from '../workspace/supply.ts';
import type { File } from '../workspace/workspace.ts';
import { Tree } from './git-tree.ts';
import { Misuse } from './verb.ts';

/** So much of a list of files is read at most; a repository of a million files has less. */
const MOST_LISTED = 400_000_000;

/**
 * What a repository may have set up that would run a program or wait for someone while it is read: none of it does. There
 * is no shell, and no command that would run an external diff or text conversion.
 */
const CALM = [
  '-c',
  'core.fsmonitor=false',
  '-c',
  'core.hooksPath=/dev/null',
  '-c',
  'protocol.allow=never',
  '--no-pager',
];
const ENVIRONMENT = {
  GIT_OPTIONAL_LOCKS: '0',
  GIT_NO_LAZY_FETCH: '1',
  GIT_TERMINAL_PROMPT: '0',
  GIT_ALLOW_PROTOCOL: '',
  LC_ALL: 'C',
};

/**
 * A state of a repository, read and searched as if it stood on disk: `files` are all it has, absolute. What is outside the
 * work tree is as it is on disk.
 */
export type State = Files & { files: readonly string[]; close: () => void };

/** So many links are followed one after the other. */
const MOST_LINKS = 8;
const MOST_LINK_BYTES = 4096;

/**
 * The state a name of a revision stands for, in the work tree of a folder.
 * @throws Misuse where git is not there, the folder is in no work tree, or the name stands for no commit
 */
export async function stateAt(ref: string, cwd: string): Promise<State> {
  const up = (await git(['rev-parse', '--show-cdup'], cwd, () => `${cwd} is in no git work tree.`)).trimEnd();
  const name = ['rev-parse', '--verify', '--quiet', '--end-of-options', `${ref}^{commit}`];
  const commit = (await git(name, cwd, () => `"${ref}" is no git revision here.`)).trimEnd();
  const list = await git(['ls-tree', '-r', '-z', '--full-tree', commit], cwd, () => `"${ref}" cannot be read.`);
  const tree = new Tree(list, resolve(cwd, up));
  const contents = new Contents(cwd);
  const read = async (uri: string, mostBytes: number, links = 0): Promise<File> => {
    const path = fileURLToPath(uri);
    if (!tree.holds(path)) return filesNow.read(uri, mostBytes);
    const blob = tree.at(path);
    if (!blob || links > MOST_LINKS) return { kind: 'absent' };
    const found = await contents.of(blob.name, blob.isLink ? MOST_LINK_BYTES : mostBytes);
    if (!blob.isLink || found.kind !== 'text') return found;
    return read(pathToFileURL(resolve(dirname(path), found.text)).href, mostBytes, links + 1);
  };
  return {
    files: tree.files,
    read: (uri, mostBytes) => read(uri, mostBytes),
    search: searchOnDisk(tree.reading(readdir)),
    close: () => contents.close(),
  };
}

/**
 * The top of the work tree a folder is in.
 * @throws Misuse where git is not there, or the folder is in no work tree
 */
export async function workTreeOf(cwd: string): Promise<string> {
  return (await git(['rev-parse', '--show-toplevel'], cwd, () => `${cwd} is in no git work tree.`)).trimEnd();
}

/** Whether a name stands for a commit in the work tree of a folder. */
export async function isRevision(ref: string, cwd: string): Promise<boolean> {
  const name = ['rev-parse', '--verify', '--quiet', '--end-of-options', `${ref}^{commit}`];
  return git(name, cwd, () => '').then(
    () => true,
    () => false,
  );
}

/**
 * Runs git for its answer, with nothing run that a repository has set up.
 * @throws Misuse with the refusal where it fails
 */
export async function git(args: readonly string[], cwd: string, refusal: () => string): Promise<string> {
  const { code, out } = await gitAnswer(args, cwd);
  if (code !== 0) throw new Misuse(refusal());
  return out;
}

/**
 * Runs git, with nothing run that a repository has set up: its exit code and what it wrote.
 * @throws Misuse where git is not there
 */
export async function gitAnswer(args: readonly string[], cwd: string): Promise<{ code: number; out: string }> {
  try {
    const env = { ...process.env, ...ENVIRONMENT };
    const { stdout } = await promisify(execFile)('git', [...CALM, ...args], { cwd, env, maxBuffer: MOST_LISTED });
    return { code: 0, out: stdout };
  } catch (error) {
    const { code, stdout } = error as { code?: unknown; stdout?: string };
    if (code === 'ENOENT') throw new Misuse('git is not installed.');
    return { code: typeof code === 'number' ? code : 255, out: stdout ?? '' };
  }
}

/** The contents of a repository, asked for one by one of a single process. */
class Contents {
  private process: ChildProcess | undefined;
  private buffer = Buffer.alloc(0);
  private wake: (() => void) | undefined;
  private last: Promise<unknown> = Promise.resolve();

  constructor(private readonly cwd: string) {}

  /** A content by its name; one at a time. */
  of(blob: string, mostBytes: number): Promise<File> {
    const next = this.last.then(() => this.ask(blob, mostBytes));
    this.last = next.catch(() => undefined);
    return next;
  }

  close(): void {
    this.process?.stdin?.end();
  }

  private async ask(blob: string, mostBytes: number): Promise<File> {
    this.begin().stdin?.write(`${blob}\n`);
    const head = (await this.take(await this.lineEnd())).toString('latin1');
    const size = Number(/ blob (\d+)\n$/.exec(head)?.[1] ?? Number.NaN);
    if (!Number.isFinite(size)) return { kind: 'absent' };
    const content = (await this.take(size + 1)).subarray(0, size);
    if (size > mostBytes) return { kind: 'refused', reason: `it is larger than ${mostBytes / 1000} kB.` };
    return textFile(content);
  }

  private begin(): ChildProcess {
    if (!this.process) {
      const env = { ...process.env, ...ENVIRONMENT };
      const stdio: ['pipe', 'pipe', 'ignore'] = ['pipe', 'pipe', 'ignore'];
      this.process = spawn('git', [...CALM, 'cat-file', '--batch'], { cwd: this.cwd, env, stdio });
      this.process.stdout?.on('data', (data: Buffer) => {
        this.buffer = Buffer.concat([this.buffer, data]);
        this.wake?.();
      });
      this.process.on('close', () => this.wake?.());
    }
    return this.process;
  }

  /** How long the line is that comes next. */
  private async lineEnd(): Promise<number> {
    await this.until(() => this.buffer.includes(10));
    return this.buffer.indexOf(10) + 1;
  }

  private async take(length: number): Promise<Buffer> {
    await this.until(() => this.buffer.length >= length);
    const taken = this.buffer.subarray(0, length);
    this.buffer = this.buffer.subarray(length);
    return taken;
  }

  private async until(isSo: () => boolean): Promise<void> {
    while (!isSo()) {
      if (this.process?.exitCode !== null) throw new Misuse('git ended before it gave what it was asked for.');
      await new Promise<void>((wake) => {
        this.wake = wake;
      });
    }
  }
}
