import { randomBytes } from 'node:crypto';
import { realpath, rename, rm, stat, writeFile } from 'node:fs/promises';

/** Writes a file whole or not at all: beside it first, then in its place; a link stays a link, rights stay as they are. */
export async function replace(file: string, text: string): Promise<void> {
  const target = await realpath(file).catch(() => file);
  const known = await stat(target).catch(() => undefined);
  const draft = `${target}.${randomBytes(6).toString('hex')}.tmp`;
  try {
    await writeFile(draft, text, { flag: 'wx', ...(known && { mode: known.mode }) });
    await rename(draft, target);
  } catch (error) {
    await rm(draft, { force: true });
    throw error;
  }
}
