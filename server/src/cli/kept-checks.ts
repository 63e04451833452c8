import { createHash, randomBytes } from 'node:crypto';
import { mkdir, readdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { keptIn } from './cache-folder.ts';
import type { FileResult } from './check-file.ts';

/** Where the checks of earlier runs are kept, and which program made them. */
export type Keeping = { folder: string; version: string };

/** So many bytes of checks are kept that this run did not ask for. */
const MOST_UNASKED = 32_000_000;
const KEPT_FOR = 60 * 86_400_000;
const LINE_END = 10;
const KEY = 32;

/**
 * The checks of earlier runs in one working folder, by what they stand on; those of another version of the program count
 * for nothing. They are one file, of a line each, that is written beside and renamed.
 */
export class KeptChecks {
  private readonly file: string;
  private readonly head: string;
  private readonly bytes: Buffer;
  private readonly lines = new Map<string, readonly [start: number, end: number]>();
  private readonly added = new Map<string, string>();
  private readonly asked = new Set<string>();

  constructor(
    private readonly keeping: Keeping,
    cwd: string,
  ) {
    const name = createHash('sha256').update(cwd).digest('hex').slice(0, 24);
    this.file = join(keeping.folder, `${name}.checks`);
    this.head = `checks by ${keeping.version}`;
    this.bytes = keptIn(this.file) ?? Buffer.alloc(0);
    this.index();
  }

  private index(): void {
    let start = this.bytes.indexOf(LINE_END) + 1;
    if (start === 0 || this.bytes.toString('utf8', 0, start - 1) !== this.head) return;
    for (let end = this.bytes.indexOf(LINE_END, start); end >= 0; end = this.bytes.indexOf(LINE_END, start)) {
      this.lines.set(this.bytes.toString('latin1', start, start + KEY), [start, end]);
      start = end + 1;
    }
  }

  /** Whether nothing is kept of earlier runs. */
  get isEmpty(): boolean {
    return this.lines.size === 0;
  }

  /** The check that was made of the same; nothing, where there is none that can be read. */
  get(key: string): FileResult | undefined {
    const line = this.lines.get(key);
    if (!line) return undefined;
    try {
      const result = JSON.parse(this.bytes.toString('utf8', line[0] + KEY + 1, line[1]));
      this.asked.add(key);
      return result;
    } catch {
      return undefined;
    }
  }

  put(key: string, result: FileResult): void {
    this.added.set(key, JSON.stringify(result));
  }

  /** Keeps what is new, for the next run; that it cannot be kept is no fault. */
  async write(): Promise<void> {
    if (this.added.size === 0) return;
    const parts: (string | Buffer)[] = [`${this.head}\n`];
    let room = MOST_UNASKED;
    for (const [key, [start, end]] of this.lines) {
      if (this.added.has(key)) continue;
      if (!this.asked.has(key)) room -= end - start;
      if (room >= 0 || this.asked.has(key)) parts.push(this.bytes.subarray(start, end + 1));
    }
    for (const [key, json] of this.added) parts.push(`${key} ${json}\n`);
    const draft = `${this.file}.${randomBytes(6).toString('hex')}`;
    try {
      await mkdir(this.keeping.folder, { recursive: true, mode: 0o700 });
      await writeFile(draft, parts, { flag: 'wx', mode: 0o600 });
      await rename(draft, this.file);
      await this.clear();
    } catch {
      await rm(draft, { force: true }).catch(() => undefined);
    }
  }

  /** Takes away what no run in its folder has written for long, and drafts that were left. */
  private async clear(): Promise<void> {
    for (const name of await readdir(this.keeping.folder)) {
      const file = join(this.keeping.folder, name);
      if (/\.checks(\.|$)/.test(name) && Date.now() - (await stat(file)).mtimeMs > KEPT_FOR)
        await rm(file, { force: true });
    }
  }
}
