import { stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { HOUSE_FILES } from '../workspace/kind.ts';
import { shownPath } from './check-files.ts';
import { houseRoots } from './house-roots.ts';
import type { Io } from './io.ts';
import type { Answer } from './verb.ts';

/** How long to wait between two looks, in ms; and how many times the time that a look takes. */
const PAUSE = 300;
const SHARE = 8;

/** What a terminal needs to be empty. */
const CLEAR = '\u001b[2J\u001b[3J\u001b[H';

/** A check that tells what keeps it from being whole to the world it is given. */
type Check = (io: Io) => Promise<Answer>;

/**
 * Checks, and checks again whenever a file was changed, added or taken away, until the user stops it; the exit code is that
 * of the last check. The folders are looked through from time to time, which works on every file system.
 */
export async function watched(list: () => Promise<readonly string[]>, check: Check, io: Io): Promise<Answer> {
  const stopping = new AbortController();
  void io.stopped().then(() => stopping.abort());
  let seen = await stampsOf(await list(), io.cwd);
  let { code } = await told(check, '', io);
  while (!stopping.signal.aborted) {
    const start = performance.now();
    const now = await stampsOf(await list(), io.cwd);
    const changed = [...new Set([...now.keys(), ...seen.keys()])].filter((file) => now.get(file) !== seen.get(file));
    if (changed.length > 0) {
      seen = now;
      const [first = ''] = changed;
      const more = changed.length > 1 ? ` and ${changed.length - 1} more` : '';
      code = (await told(check, `${shownPath(first, io.cwd)}${more} changed`, io)).code;
    }
    const pause = Math.max(PAUSE, SHARE * (performance.now() - start));
    await wait(pause, undefined, { signal: stopping.signal }).catch(() => undefined);
  }
  return { code };
}

/** What keeps a check from being whole is told below it, where an emptied terminal still shows it. */
async function told(check: Check, why: string, io: Io): Promise<Answer> {
  const complaints: string[] = [];
  const answer = await check({ ...io, complain: (complaint) => void complaints.push(complaint) });
  const head = io.columns === undefined ? (why === '' ? '' : `--- ${why}\n`) : CLEAR;
  io.write(`${head}${answer.out ?? ''}`);
  for (const complaint of complaints) io.complain(complaint);
  if (io.columns !== undefined) io.write('Watching; Ctrl-C ends it.\n');
  return answer;
}

/** By which a change of each file is seen: those that are checked, and where house rules may stand above them. */
async function stampsOf(files: readonly string[], cwd: string): Promise<Map<string, string>> {
  const roots = houseRoots(files, cwd).map((root) => fileURLToPath(root));
  const folders = new Set<string>();
  for (const file of files)
    for (let folder = dirname(file); !folders.has(folder); folder = dirname(folder)) {
      folders.add(folder);
      if (roots.includes(folder)) break;
    }
  const houses = [...folders].flatMap((folder) => HOUSE_FILES.map((name) => join(folder, name)));
  const stamps = new Map<string, string>();
  await Promise.all(
    [...new Set([...files, ...houses])].map(async (file) => {
      const found = await stat(file).catch(() => undefined);
      if (found) stamps.set(file, `${found.mtimeMs} ${found.size} ${found.ino}`);
    }),
  );
  return stamps;
}
