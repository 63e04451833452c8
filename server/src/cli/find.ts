import { type Dirent, readdir, stat } from 'node:fs';
import { resolve } from 'node:path';
import { promisify } from 'node:util';
import { glob, isDynamicPattern } from 'tinyglobby';

/** Names of the files that are checked in a folder. */
const OURS = ['**/*.build.{yaml,yml}', '**/*.parts.{yaml,yml}', '**/build-sheet.config.{yaml,yml}'];
const IGNORED = ['**/node_modules/**', '**/.git/**'];

/** Files to work on, absolute and each once, and what could not be looked at. */
export type Found = { files: string[]; complaints: string[] };

/**
 * The files that paths stand for: a file as it is, a folder with all of ours below it, a pattern with what it matches.
 * Links to folders are not followed, so that a search stays where it was sent.
 */
export async function find(paths: readonly string[], cwd: string): Promise<Found> {
  const complaints: string[] = [];
  const files = new Set<string>();
  for (const path of paths) {
    const found = await filesAt(path, cwd, complaints);
    for (const file of found) files.add(file);
  }
  return { files: [...files], complaints };
}

async function filesAt(path: string, cwd: string, complaints: string[]): Promise<string[]> {
  const whole = resolve(cwd, path);
  const there = await promisify(stat)(whole).catch(() => undefined);
  if (there && !there.isDirectory()) return [whole];
  if (!there && !isDynamicPattern(path)) {
    complaints.push(`there is no file or folder ${path}.`);
    return [];
  }
  const found = there ? await search(OURS, whole, complaints) : await search([path], cwd, complaints);
  if (found.length === 0)
    complaints.push(
      there ? `there is no build sheet in ${path}: none is named *.build.yaml.` : `nothing matches ${path}.`,
    );
  return found.map((file) => resolve(file)).toSorted();
}

function search(patterns: readonly string[], cwd: string, complaints: string[]): Promise<string[]> {
  const options = { cwd, absolute: true, followSymbolicLinks: false, expandDirectories: false, ignore: IGNORED };
  return glob(patterns, { ...options, fs: { readdir: tellingReaddir(complaints) as typeof readdir } });
}

/** Reads folders, and tells which could not be read: what was not looked at is not clean. */
function tellingReaddir(complaints: string[]) {
  return (
    path: string,
    options: { withFileTypes: true },
    done: (error: NodeJS.ErrnoException | null, entries: Dirent[]) => void,
  ): void =>
    readdir(path, options, (error, entries) => {
      if (error) complaints.push(`the folder ${path} cannot be read (${error.code ?? 'unknown'}).`);
      done(error, entries);
    });
}
