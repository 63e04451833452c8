import {
  closeSync,
  constants,
  fstatSync,
  openSync,
  type readdir as Readdir,
  readSync,
  type Stats,
  statSync,
} from 'node:fs';
import { type FileHandle, open, readdir, stat } from 'node:fs/promises';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { glob } from 'tinyglobby';
import { type Entry, filesBelow } from './workspace/below.ts';
import { absent, NOT_REGULAR, refused, textFile, tooLarge } from './workspace/found-file.ts';
import { kindOf } from './workspace/kind.ts';
import { type Files, MOST_FOUND } from './workspace/supply.ts';
import type { File, Search } from './workspace/workspace.ts';

/** For reading, and not to wait for a writer, should a pipe stand there since it was looked at. */
const OPENING = constants.O_RDONLY | (constants.O_NONBLOCK ?? 0);

/** How long a file system may take for one file, in ms. */
const PATIENCE = 3000;

type Known = { stamp: string; file: File };

/**
 * Reads files by their address, as the server wants them from its host: regular files up to a size, wherever links lead,
 * and each only once while it does not change. Devices, pipes and folders are never opened.
 */
export function filesOnDisk(): (uri: string, mostBytes: number) => Promise<File> {
  const known = new Map<string, Known>();

  async function look(uri: string, mostBytes: number): Promise<File> {
    const path = pathOf(uri);
    if (path === undefined) return absent;
    const before = known.get(uri);
    const now = await read(path, mostBytes, before).catch(unreadable);
    if (now.file.kind === 'absent') known.delete(uri);
    else known.set(uri, now);
    return now.file;
  }

  return (uri, mostBytes) => inTime(look(uri, mostBytes));
}

/** Reads a file as `filesOnDisk` does, and remembers nothing of it. */
export function fileOnDisk(uri: string, mostBytes: number): Promise<File> {
  const path = pathOf(uri);
  if (path === undefined) return Promise.resolve(absent);
  return inTime(
    read(path, mostBytes, undefined)
      .catch(unreadable)
      .then(({ file }) => file),
  );
}

/** Our files in folders on disk and below; links to folders are not followed. */
export function filesBelowOnDisk(folders: readonly string[]): Promise<{ uris: string[]; complaints: string[] }> {
  return filesBelow(folders, lookOnDisk);
}

async function lookOnDisk(folder: string, complaints: string[]): Promise<Entry[]> {
  const path = pathOf(folder);
  if (path === undefined) return [];
  try {
    const entries = await readdir(path, { withFileTypes: true });
    return entries.map((entry) => ({ name: entry.name, isFolder: entry.isDirectory() }));
  } catch (error) {
    const { code = 'unknown' } = error as NodeJS.ErrnoException;
    if (code !== 'ENOENT') complaints.push(`the folder ${path} cannot be read (${code}).`);
    return [];
  }
}

/**
 * Looks for catalogs as house rules name them, not into what others have put there, and where links lead to folders not
 * either; through the folders that are given, or those on disk.
 */
export function searchOnDisk(folders?: typeof Readdir): Files['search'] {
  return async ({ folder, patterns }: Search) => {
    const cwd = pathOf(folder);
    if (cwd === undefined) return [];
    const signal = AbortSignal.timeout(PATIENCE);
    const options = { cwd, absolute: true, followSymbolicLinks: false, expandDirectories: false, signal };
    const ignore = ['**/node_modules/**', '**/.git/**'];
    const fs = folders && { readdir: folders };
    const found = await glob([...patterns], { ...options, ignore, ...(fs && { fs }) }).catch(() => []);
    const uris = found.map((file) => pathToFileURL(file).href).filter((uri) => kindOf(uri, '') === 'catalog');
    return uris.toSorted().slice(0, MOST_FOUND);
  };
}

/**
 * Reads a file by its address at once, as for a program that has nothing else to do meanwhile: a regular file up to a size,
 * wherever links lead.
 */
function fileNow(uri: string, mostBytes: number): File {
  const path = pathOf(uri);
  if (path === undefined) return absent;
  try {
    const refusal = refusalOf(statSync(path), mostBytes);
    if (refusal) return refused(refusal);
    const handle = openSync(path, OPENING);
    try {
      const found = fstatSync(handle);
      const late = refusalOf(found, mostBytes);
      return late ? refused(late) : textFile(bytesNow(handle, found.size));
    } finally {
      closeSync(handle);
    }
  } catch (error) {
    return unreadable(error as NodeJS.ErrnoException).file;
  }
}

/** The files on disk for a program that has nothing else to do while one is read. */
export const filesNow: Files = {
  read: async (uri, mostBytes) => fileNow(uri, mostBytes),
  search: searchOnDisk(),
};

function bytesNow(handle: number, size: number): Uint8Array {
  const buffer = Buffer.alloc(size);
  let length = 0;
  for (let read = 1; read > 0 && length < size; length += read)
    read = readSync(handle, buffer, length, size - length, length);
  return buffer.subarray(0, length);
}

async function read(path: string, mostBytes: number, before: Known | undefined): Promise<Known> {
  const found = await stat(path);
  const stamp = stampOf(found);
  if (before?.stamp === stamp) return before;
  const refusal = refusalOf(found, mostBytes);
  if (refusal) return { stamp, file: refused(refusal) };
  const handle = await open(path, OPENING);
  try {
    const opened = await handle.stat();
    const late = refusalOf(opened, mostBytes);
    if (late) return { stamp, file: refused(late) };
    return { stamp: stampOf(opened), file: textFile(await bytesOf(handle, opened.size)) };
  } finally {
    await handle.close();
  }
}

async function bytesOf(handle: FileHandle, size: number): Promise<Uint8Array> {
  const buffer = Buffer.alloc(size);
  let length = 0;
  while (length < size) {
    const { bytesRead } = await handle.read(buffer, length, size - length, length);
    if (bytesRead === 0) break;
    length += bytesRead;
  }
  return buffer.subarray(0, length);
}

function refusalOf(found: Stats, mostBytes: number): string | undefined {
  if (!found.isFile()) return NOT_REGULAR;
  if (found.size <= mostBytes) return undefined;
  return tooLarge(mostBytes);
}

function stampOf({ mtimeMs, ctimeMs, size, ino }: Stats): string {
  return `${mtimeMs} ${ctimeMs} ${size} ${ino}`;
}

function unreadable(error: NodeJS.ErrnoException): Known {
  const { code = 'unknown' } = error;
  if (code === 'ENOENT' || code === 'ENOTDIR') return { stamp: '', file: absent };
  return { stamp: '', file: refused(`it cannot be read (${code}).`) };
}

function pathOf(uri: string): string | undefined {
  if (!uri.startsWith('file:')) return undefined;
  try {
    return fileURLToPath(uri);
  } catch {
    return undefined;
  }
}

/** The file, or a refusal where the file system does not answer. */
async function inTime(file: Promise<File>): Promise<File> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<File>((refuse) => {
    timer = setTimeout(() => refuse(refused('its file system does not answer.')), PATIENCE);
  });
  return Promise.race([file, late]).finally(() => clearTimeout(timer));
}
