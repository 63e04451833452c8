import { createHash } from 'node:crypto';
import { basename, dirname, relative } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Service } from '../service.ts';
import { kindOf } from '../workspace/kind.ts';
import type { Files } from '../workspace/supply.ts';
import type { File } from '../workspace/workspace.ts';
import { absolute, checked, type FileResult, located, opened, pathBetween, reasonOf } from './check-file.ts';
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
  const { kept, cwd, service } = checking;
  const results = new Map<string, FileResult>();
  const take = (file: string, result: FileResult) => {
    results.set(file, result);
    progress?.(results.size, files.length);
  };
  const isShared = crew !== undefined && files.length > MANY;
  const isAnew = isShared && (kept === undefined || kept.isEmpty);
  const left: string[] = isAnew ? [...files] : [];
  const hold = holding(service);
  for (const file of isAnew ? [] : files) {
    hold(file);
    const found = await checkFile(file, checking, isShared);
    if (found) take(file, found.result);
    else left.push(file);
  }
  if (crew && left.length > 0)
    await crew.check(left, {
      take: (file, { key, result }) => {
        if (key !== undefined) kept?.put(key, result);
        take(file, result);
      },
      own: (file) => {
        hold(file);
        return checkFile(file, checking);
      },
    });
  await kept?.write();
  return gathered(files, results, cwd);
}

/** A check of a file, and what its texts are known by where it may be kept. */
export type KeyedResult = { key?: string; result: FileResult };

/** Checks a file, or takes over the check of the same texts; with `onlyKept` nothing, where there is none. */
export function checkFile(file: string, checking: Checking): Promise<KeyedResult>;
export function checkFile(file: string, checking: Checking, onlyKept: boolean): Promise<KeyedResult | undefined>;
export async function checkFile(
  file: string,
  { service, source, repairs, kept }: Checking,
  onlyKept = false,
): Promise<KeyedResult | undefined> {
  const found = await opened(file, service, source);
  if (found.kind !== 'text') return { result: { complaints: [{ path: '', message: reasonOf(found) }], faults: [] } };
  try {
    const key = keyOf(found.uri, found.text, service, repairs);
    const known = kept?.get(key);
    if (known) return { result: known };
    if (onlyKept) return undefined;
    const result = checked(found.uri, found.text, service, repairs);
    if (result.faults.length > 0) return { result };
    kept?.put(key, result);
    return { key, result };
  } finally {
    service.close(found.uri);
  }
}

/** What a check is known by: all that it stands on but the program. */
function keyOf(uri: string, text: string, service: Service, repairs: boolean): string {
  const { workspace } = service;
  const hasCatalog = workspace.behind(uri).some(([other]) => kindOf(other, '') === 'catalog');
  const head = [repairs, workspace.get(uri)?.kind, behindOf(uri, service), hasCatalog && workspace.today];
  return hashOf(`${JSON.stringify(head)}\n${text}`).slice(0, 32);
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

/** Has what holds for the files of a folder stay known from its first file to its last, where they come one after the other. */
export function holding({ workspace }: Service): (file: string) => void {
  let held = '';
  return (file) => {
    if (held !== '' && dirname(held) === dirname(file)) return;
    if (held !== '') workspace.dismiss(pathToFileURL(held).href);
    held = file;
    workspace.expect(pathToFileURL(held).href);
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
