import { type House, noHouse } from '../sheet/house.ts';
import { HOUSE_FILES } from './kind.ts';

/**
 * Where the house rules of a text may stand: for each folder from the outermost root of the workspace that holds it down to
 * its own, the addresses to look at, of which the first that is there counts. The far folders come first.
 */
export function housesAbove(uri: string, roots: readonly string[]): string[][] {
  const folders = foldersOf(uri, roots.map(withoutSlash));
  return folders.map((folder) => HOUSE_FILES.map((name) => `${folder}/${name}`));
}

function foldersOf(uri: string, roots: readonly string[]): string[] {
  const home = homeOf(uri);
  if (home === undefined) return roots.length === 1 ? [...roots] : [];
  const outermost = roots
    .filter((root) => home === root || home.startsWith(`${root}/`))
    .toSorted((one, other) => one.length - other.length)[0];
  return outermost === undefined ? [home] : pathDown(outermost, home);
}

/**
 * The folder a text belongs to. The other side of a difference (`git:`) and a text not yet saved under its name belong
 * where the file is; an `untitled:` text without a path belongs nowhere.
 */
export function homeOf(uri: string): string | undefined {
  const path = uri.replace(/[?#].*$/s, '').replace(/^(git|untitled):\/*(?=\/)/, 'file://');
  const end = path.lastIndexOf('/');
  return end > 0 ? path.slice(0, end) : undefined;
}

function pathDown(root: string, folder: string): string[] {
  const steps = folder.slice(root.length).split('/').slice(1);
  return [root, ...steps.map((_, index) => [root, ...steps.slice(0, index + 1)].join('/'))];
}

function withoutSlash(uri: string): string {
  return uri.replace(/\/$/, '');
}

/** House rules of several folders as one, the near ones over the far ones. */
export function nearOverFar(houses: readonly House[]): House {
  return houses.reduce(over, noHouse);
}

function over(far: House, near: House): House {
  return {
    ...far,
    ...near,
    ...((far.limits || near.limits) && { limits: { ...far.limits, ...near.limits } }),
    ...((far.rules || near.rules) && { rules: { ...far.rules, ...near.rules } }),
  };
}
