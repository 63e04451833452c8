import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';

/**
 * The folders from which house rules hold, as addresses: for each file the top of its git work tree; where there is none
 * the working folder, if the file is below it, else the file's own folder.
 */
export function houseRoots(files: readonly string[], cwd: string): string[] {
  const tops = new Map<string, string | undefined>();
  const roots = files.map(dirname).map((folder) => workTreeOf(folder, tops) ?? (isBelow(folder, cwd) ? cwd : folder));
  return [...new Set(roots)].map((root) => pathToFileURL(root).href);
}

function workTreeOf(folder: string, known: Map<string, string | undefined>): string | undefined {
  if (known.has(folder)) return known.get(folder);
  const above = dirname(folder);
  const top = existsSync(join(folder, '.git')) ? folder : above === folder ? undefined : workTreeOf(above, known);
  known.set(folder, top);
  return top;
}

function isBelow(folder: string, top: string): boolean {
  return folder === top || folder.startsWith(join(top, '/'));
}
