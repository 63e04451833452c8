import { readFileSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';

/** Where programs of a user keep what they can make anew. */
export function cacheFolder(): string {
  const { XDG_CACHE_HOME, LOCALAPPDATA } = process.env;
  if (process.platform === 'win32') return join(LOCALAPPDATA ?? join(homedir(), 'AppData', 'Local'), 'build-sheet');
  if (process.platform === 'darwin') return join(homedir(), 'Library', 'Caches', 'build-sheet');
  return join(XDG_CACHE_HOME || join(homedir(), '.cache'), 'build-sheet');
}

/** What was kept in a file, if nobody else could have written it. */
export function keptIn(file: string): Buffer | undefined {
  try {
    const { uid, mode } = statSync(file);
    if (process.getuid && (uid !== process.getuid() || (mode & 0o022) !== 0)) return undefined;
    return readFileSync(file);
  } catch {
    return undefined;
  }
}
