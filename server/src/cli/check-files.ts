import { createHash } from 'node:crypto';
import { basename, dirname, join, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Service } from '../service.ts';
import { kindOf, MOST_SHEET_BYTES } from '../workspace/kind.ts';
import type { Files } from '../workspace/supply.ts';
import type { File } from '../workspace/workspace.ts';
import { absolute, checked, type FileResult, located, open, pathBetween, reasonOf, supplied } from './check-file.ts';
import type { CheckedFile, CheckResult, Complaint } from './check-result.ts';
import type { KeptChecks } from './kept-checks.ts';
import type { Crew } from './threads.ts';

/** From so many files on threads help, and checks are kept: fewer are checked before threads or a cache are at hand. */
export const MANY = 200;

/** How files are checked: as `source` gives them, by the house rules of the service's roots, with or without repairs. */
export type Checking = { service: Service; source: Files; repairs: boolean; kept?: KeptChecks | undefined };

/** What helps with many files: threads, and someone who is told how far it has come. */
export type Help = { crew?: Crew | undefined; progress?: ((done: number, all: number) => void) | undefined };

/**
 * Checks files, and tells what could not be checked; paths are shown from `cwd`. What an earlier run has checked of the
 * same texts is taken over.
 */
export async function checkFiles(
  files: readonly string[],
  checking: Checking & { cwd: string },
  { crew, progress }: Help = {},
): Promise<CheckResult> {
  const { kept, cwd } = checking;
  const results = new Map<string, FileResult>();
  const take = (file: string, result: FileResult) => {
    results.set(file, result);
    progress?.(results.size, files.length);
  };
  const isShared = crew !== undefined && files.length > MANY;
  const isAnew = isShared && (kept === undefined || kept.isEmpty);
  const left: string[] = isAnew ? [...files] : [];
  const { known, check } = checkerOf(checking);
  for (const file of isAnew ? [] : files) {
    const found = await (isShared ? known(file) : check(file));
    if (found) take(file, found.result);
    else left.push(file);
  }
  if (crew && left.length > 0)
    await crew.check(left, {
      take: (file, { key, result }) => {
        if (key !== undefined) kept?.put(key, result);
        take(file, result);
      },
      own: check,
    });
  await kept?.write();
  return gathered(files, results, cwd);
}

/** A check of a file, and what its texts are known by where it may be kept. */
export type KeyedResult = { key?: string; result: FileResult };

/** Checks files one after the other: `known` only takes over the check of the same texts, `check` makes one where there is none. */
export type Checker = {
  known: (file: string) => Promise<KeyedResult | undefined>;
  check: (file: string) => Promise<KeyedResult>;
};

/** A checker; what holds for the files of a folder is looked up at the first of them. */
export function checkerOf({ service, source, repairs, kept }: Checking): Checker {
  const hold = holding(service);
  let standing = '';
  const look = async (file: string): Promise<KeyedResult | { uri: string; text: string; key: string }> => {
    const { href: uri } = pathToFileURL(file);
    const found = await source.read(uri, MOST_SHEET_BYTES);
    if (found.kind !== 'text') return { result: { complaints: [{ path: '', message: reasonOf(found) }], faults: [] } };
    const folder = hold(file);
    if (folder !== undefined) standing = await standingFor(folder, service, source);
    const key = hashOf(`${JSON.stringify([repairs, kindOf(uri, 'build-sheet'), standing])}\n${found.text}`).slice(
      0,
      32,
    );
    const result = kept?.get(key);
    return result ? { result } : { uri, text: found.text, key };
  };
  return {
    known: async (file) => {
      const found = await look(file);
      return 'result' in found ? found : undefined;
    },
    check: async (file) => {
      const found = await look(file);
      if ('result' in found) return found;
      const { uri, text, key } = found;
      try {
        await open(uri, text, service, source);
        const result = checked(uri, text, service, repairs);
        if (result.faults.length > 0) return { result };
        kept?.put(key, result);
        return { key, result };
      } finally {
        service.close(uri);
      }
    },
  };
}

/** What the check of a file stands on besides its text and the program, by an address in its folder that is held. */
async function standingFor(uri: string, service: Service, source: Files): Promise<string> {
  const { workspace } = service;
  await supplied(service, source);
  const hasCatalog = workspace.behind(uri).some(([other]) => kindOf(other, '') === 'catalog');
  return JSON.stringify([behindOf(uri, service), hasCatalog && workspace.today]);
}

/** What the house rules and catalogs are known by that hold for a text, wherever it stands with them. */
export function behindOf(uri: string, { workspace }: Service): string {
  return JSON.stringify(workspace.behind(uri).map(([other, file]) => [pathBetween(uri, other), file && sumOf(file)]));
}

const sums = new WeakMap<File, string>();

/** What a file is known by; worked out once, since every sheet of a shop may stand on it. */
function sumOf(file: File): string {
  const sum = sums.get(file) ?? hashOf(JSON.stringify(file));
  sums.set(file, sum);
  return sum;
}

function hashOf(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

/**
 * Has what holds for the files of a folder stay known from its first file to its last, where they come one after the other.
 * At the first of another folder it gives an address in that folder which stands for all of them, whatever is called so.
 */
export function holding({ workspace }: Service): (file: string) => string | undefined {
  let folder: string | undefined;
  let held = '';
  return (file) => {
    if (dirname(file) === folder) return undefined;
    if (held !== '') workspace.dismiss(held);
    folder = dirname(file);
    held = pathToFileURL(join(folder, 'any')).href;
    workspace.expect(held);
    return held;
  };
}

function gathered(files: readonly string[], results: ReadonlyMap<string, FileResult>, cwd: string): CheckResult {
  const shown: CheckedFile[] = [];
  const complaints = new Map<string, Complaint>();
  const faults: Complaint[] = [];
  for (const file of files) {
    const result = results.get(file);
    if (!result) continue;
    const here = located(result, (path) => shownPath(absolute(path, file), cwd));
    if (here.file) shown.push(here.file);
    for (const complaint of here.complaints) complaints.set(JSON.stringify(complaint), complaint);
    faults.push(...here.faults);
  }
  return { files: shown, complaints: [...complaints.values()], faults };
}

/** A file as it is shown: from the working folder, with slashes. */
export function shownPath(file: string, cwd: string): string {
  const path = relative(cwd, file);
  return (path === '' ? basename(file) : path).replaceAll('\\', '/');
}
