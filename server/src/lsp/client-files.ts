import picomatch from 'picomatch';
import { type Connection, RequestType } from 'vscode-languageserver';
import { addressIn } from '../workspace/address.ts';
import { type Entry, filesBelow, type Look } from '../workspace/below.ts';
import { absent, NOT_REGULAR, refused, textFile, tooLarge } from '../workspace/found-file.ts';
import { kindOf } from '../workspace/kind.ts';
import { MOST_FOUND } from '../workspace/supply.ts';
import type { File, Search } from '../workspace/workspace.ts';
import type { Host } from './session.ts';

/** A file as the client finds it: its bytes, or why there are none; `code` is what its file system says. */
export type FoundFile = { bytes: Uint8Array } | { missing: 'absent' | 'irregular' | 'large' } | { code: string };

/** What stands in a folder that the client can look into, or what its file system says. */
export type FoundFolder = { entries: readonly Entry[] } | { code: string };

export const readFileRequest = new RequestType<{ uri: string; mostBytes: number }, FoundFile, void>(
  'buildSheet/readFile',
);
export const readFolderRequest = new RequestType<{ uri: string }, FoundFolder, void>('buildSheet/readFolder');

/** How long a client may take for one file or folder, in ms. */
const PATIENCE = 10_000;

/** A host that asks the client for what it cannot look at by itself; the same object for a file that has not changed. */
export function withFilesOfClient(host: Host, connection: Connection): Host {
  const known = new Map<string, File>();

  async function readOnce(uri: string, mostBytes: number): Promise<File> {
    const asked = connection.sendRequest(readFileRequest, { uri, mostBytes });
    const found = await inTime<FoundFile>(asked, { code: 'no answer' });
    if ('bytes' in found) return textFile(found.bytes);
    if ('code' in found) return refused(`it cannot be read (${found.code}).`);
    if (found.missing === 'absent') return absent;
    return refused(found.missing === 'large' ? tooLarge(mostBytes) : NOT_REGULAR);
  }

  async function read(uri: string, mostBytes: number): Promise<File> {
    const file = await readOnce(uri, mostBytes);
    const before = known.get(uri);
    if (before && areAlike(before, file)) return before;
    if (file.kind === 'absent') known.delete(uri);
    else known.set(uri, file);
    return file;
  }

  async function look(uri: string, complaints: string[]): Promise<readonly Entry[]> {
    const found = await inTime<FoundFolder>(connection.sendRequest(readFolderRequest, { uri }), { code: 'no answer' });
    if ('entries' in found) return found.entries;
    complaints.push(`the folder ${uri} cannot be read (${found.code}).`);
    return [];
  }

  async function find(folders: readonly string[]) {
    const theirs = await filesBelow(
      folders.filter((uri) => !host.holds(uri)),
      look,
    );
    const own = await host.find(folders.filter(host.holds));
    return {
      uris: [...own.uris, ...theirs.uris].toSorted(),
      complaints: [...own.complaints, ...theirs.complaints],
    };
  }

  async function search({ folder, patterns }: Search): Promise<string[]> {
    const found = await Promise.all(patterns.map((pattern) => catalogsBy(pattern, folder, look)));
    return [...new Set(found.flat())].toSorted().slice(0, MOST_FOUND);
  }

  return {
    holds: () => true,
    read: (uri, mostBytes) => (host.holds(uri) ? host.read(uri, mostBytes) : read(uri, mostBytes)),
    readOnce: (uri, mostBytes) => (host.holds(uri) ? host.readOnce(uri, mostBytes) : readOnce(uri, mostBytes)),
    find,
    search: (one) => (host.holds(one.folder) ? host.search(one) : search(one)),
    pageOf: host.pageOf,
  };
}

/** The catalogs in and below the folder that a pattern begins with, such as `../parts`, which match its rest. */
async function catalogsBy(pattern: string, folder: string, look: Look): Promise<string[]> {
  const steps = pattern.replaceAll('\\', '/').split('/');
  const plain = steps.slice(0, -1).findIndex((step) => picomatch.scan(step).isGlob);
  const rest = plain < 0 ? steps.length - 1 : plain;
  const start = steps.slice(0, rest).reduce(stepInto, folder.replace(/\/$/, ''));
  const matches = picomatch(steps.slice(rest).join('/'), { windows: false });
  const { uris } = await filesBelow([start], look);
  return uris.filter(
    (uri) => kindOf(uri, '') === 'catalog' && matches(decodeURIComponent(uri.slice(start.length + 1))),
  );
}

/** The address of what a step of a path leads to from a folder. */
function stepInto(folder: string, step: string): string {
  if (step === '..') return folder.replace(/\/[^/]*$/, '');
  return step === '.' || step === '' ? folder : addressIn(folder, step);
}

function areAlike(one: File, other: File): boolean {
  if (one.kind === 'text' && other.kind === 'text') return one.text === other.text;
  if (one.kind === 'refused' && other.kind === 'refused') return one.reason === other.reason;
  return one.kind === other.kind;
}

/** What a client answers; `otherwise` where it does not, or not in time. */
async function inTime<Answer>(asked: Promise<Answer>, otherwise: Answer): Promise<Answer> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<Answer>((ok) => {
    timer = setTimeout(() => ok(otherwise), PATIENCE);
  });
  return Promise.race([asked.catch(() => otherwise), late]).finally(() => clearTimeout(timer));
}
