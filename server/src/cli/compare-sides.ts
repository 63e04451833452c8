import { existsSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join, relative, resolve } from 'node:path';
import { filesNow } from '../disk.ts';
import { kindOf } from '../workspace/kind.ts';
import type { Files } from '../workspace/supply.ts';
import { shownPath } from './check-files.ts';
import { find } from './find.ts';
import { isRevision, stateAt, workTreeOf } from './git.ts';
import type { Io } from './io.ts';
import { Misuse } from './verb.ts';

/** One side of a comparison: its sheets by the name they are known by on both sides, and where they come from. */
export type Side = { sheets: ReadonlyMap<string, string>; isFile: boolean; source: Files; close: () => void };

/** What an operand stands for: a path on disk, or a path, if it names one, in a state of git. */
type Meant = { path: string } | { ref: string; path?: string };

/**
 * Both sides of a comparison. An operand is a file or a folder; else a state of git, of the same path as the other side,
 * or REF:PATH as git writes it, from the top of the work tree or with `./` from here.
 * @throws Misuse for what is neither, a file beside a folder, or a file that is no sheet
 */
export async function sidesOf(before: string, after: string, io: Io): Promise<[Side, Side]> {
  const meant = [await meantBy(before, io), await meantBy(after, io)] as const;
  const [old, now] = meant;
  const path = ('path' in now && now.path) || ('path' in old && old.path) || io.cwd;
  const sides: Side[] = [];
  try {
    for (const one of meant) sides.push(await sideOf('ref' in one ? { ...one, path: one.path ?? path } : one, io));
    const [first, second] = sides as [Side, Side];
    if (first.isFile !== second.isFile) throw new Misuse('a sheet is compared with a sheet, a folder with a folder.');
    for (const { sheets } of first.isFile ? sides : []) mustBeSheets([...sheets.values()], io);
    return [first, second];
  } catch (error) {
    for (const side of sides) side.close();
    throw error;
  }
}

/** @throws Misuse for a catalog or house rules by themselves: what they do shows in the sheets they hold for */
function mustBeSheets(files: readonly string[], { cwd }: Io): void {
  const other = files.find((file) => (kindOf(file, '') ?? 'sheet') !== 'sheet');
  if (other === undefined) return;
  const what = kindOf(other, '') === 'catalog' ? 'a catalog' : 'house rules';
  throw new Misuse(`${shownPath(other, cwd)}: this is ${what}, no build sheet; compare the folder of its sheets.`);
}

async function meantBy(operand: string, { cwd }: Io): Promise<Meant> {
  if (existsSync(resolve(cwd, operand))) return { path: resolve(cwd, operand) };
  if (await isRevision(operand, cwd)) return { ref: operand };
  const [, ref, path = ''] = /^([^:]+):(.*)$/s.exec(operand) ?? [];
  if (!ref || !(await isRevision(ref, cwd)))
    throw new Misuse(`there is no file, folder or git revision ${JSON.stringify(operand)}.`);
  return { ref, path: /^\.\.?(\/|$)/.test(path) ? resolve(cwd, path) : join(await workTreeOf(cwd), path) };
}

async function sideOf(meant: { ref?: string; path: string }, io: Io): Promise<Side> {
  return meant.ref === undefined ? sideOnDisk(meant.path, io) : sideInGit(meant.ref, meant.path, io);
}

async function sideOnDisk(path: string, { cwd, complain }: Io): Promise<Side> {
  const isFile = !(await stat(path)).isDirectory();
  const { files, complaints } = isFile ? { files: [path], complaints: [] } : await find([path], cwd);
  for (const complaint of complaints) complain(complaint);
  return { ...named(files, path, isFile), source: filesNow, close: () => {} };
}

async function sideInGit(ref: string, path: string, { cwd }: Io): Promise<Side> {
  const state = await stateAt(ref, cwd);
  const { files, close } = state;
  const isFile = files.includes(path);
  const inside = isFile ? [path] : files.filter((file) => !relative(path, file).startsWith('..'));
  return { ...named(inside.toSorted(), path, isFile || /\.ya?ml$/.test(path)), source: state, close };
}

/** Sheets by their path below the folder; a single one by nothing, so that it is compared whatever it is called. */
function named(files: readonly string[], path: string, isFile: boolean): Pick<Side, 'sheets' | 'isFile'> {
  if (isFile) return { isFile, sheets: new Map(files.map((file) => ['', file])) };
  const sheets = files.filter((file) => kindOf(file, '') === 'sheet');
  return { isFile, sheets: new Map(sheets.map((file) => [relative(path, file).replaceAll('\\', '/'), file])) };
}
