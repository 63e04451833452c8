import { MOST_CATALOG_BYTES } from './catalogs.ts';
import { MOST_BYTES } from './house-file.ts';
import { kindOf } from './kind.ts';
import { isLog, MOST_LOG_BYTES } from './logs.ts';
import type { File, Search, Workspace } from './workspace.ts';

/** Most catalogs that a search finds. */
export const MOST_FOUND = 200;

/** Where files come from. */
export type Files = {
  /** What is at an address, a regular file of so many bytes at most; never throws. */
  read: (uri: string, mostBytes: number) => Promise<File>;
  /** The catalogs that a search finds, in the order of their addresses; never throws. */
  search: (search: Search) => Promise<readonly string[]>;
};

/** Gives a workspace what it wants once; what that names may be wanted next. */
export async function supplyOnce(workspace: Workspace, { read, search }: Files): Promise<void> {
  const { doubts } = workspace;
  const most = (uri: string) => {
    if (isLog(uri)) return MOST_LOG_BYTES;
    return kindOf(uri, '') === 'catalog' ? MOST_CATALOG_BYTES : MOST_BYTES;
  };
  await Promise.all([
    ...workspace.wanted().map(async (uri) => workspace.give(uri, await read(uri, most(uri)), doubts)),
    ...workspace.searches().map(async (one) => workspace.giveFound(one, await search(one), doubts)),
  ]);
}

/** Whether a workspace wants nothing. */
export function isSupplied(workspace: Workspace): boolean {
  return workspace.wanted().length === 0 && workspace.searches().length === 0;
}

/** Gives a workspace what it wants until it wants nothing. */
export async function supply(workspace: Workspace, files: Files): Promise<void> {
  while (!isSupplied(workspace)) await supplyOnce(workspace, files);
}
