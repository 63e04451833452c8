import type { HouseConfig } from './generated/house-config.ts';
import { rules } from './generated/rules.ts';
import { validateConfig } from './generated/validate.js';
import type { Entry } from './sheet/entry.ts';
import { type House, noHouse } from './sheet/house.ts';
import type { Problem } from './sheet/problem.ts';
import { entryOf, readText, type Sheet } from './sheet/read.ts';
import { houseRoot } from './sheet/schema.ts';

export const HOUSE_FILES = ['build-sheet.config.yaml', 'build-sheet.config.yml'];

/** Reads a text file by its URI; nothing where there is none. */
export type ReadFile = (uri: string) => string | undefined;

/** The house rules in a file by its URI; nothing where there is none. */
export type HouseAt = (uri: string) => House | undefined;

/** House rules as read from one version of their text. */
export function readHouse(text: string): Sheet<HouseConfig> {
  const sheet = readText<HouseConfig>(text, houseRoot, validateConfig);
  const entries = entryOf(sheet, ['rules'])?.children ?? [];
  return { ...sheet, problems: [...sheet.problems, ...entries.flatMap((entry) => ruleProblem(entry, sheet.values))] };
}

function ruleProblem(entry: Entry, values: House): Problem[] {
  const id = String(entry.path.at(-1));
  const range = entry.key ?? entry.value;
  const problem = (code: Problem['code'], message: string) => [{ code, message, range, fixes: [] }];
  if (!rules.some((rule) => rule.id === id)) return problem('house/unknown-rule', `There is no rule \`${id}\`.`);
  const setting = values.rules?.[id];
  if (setting?.severity !== 'off' || setting.reason) return [];
  return problem('house/off-without-reason', `Say why \`${id}\` is off: add a \`reason\`; until then it stays on.`);
}

/**
 * The house rules that hold for a document: those of every folder from the workspace's root down to its own, the nearer
 * ones over the farther.
 */
export function houseFor(uri: string, roots: readonly string[], houseAt: HouseAt): House {
  const root = roots
    .map((folder) => folder.replace(/\/$/, ''))
    .filter((folder) => uri.startsWith(`${folder}/`))
    .toSorted((one, other) => other.length - one.length)[0];
  const folders = foldersFrom(dirname(uri), root ?? dirname(uri));
  return folders.reduce((house, folder) => over(house, houseIn(folder, houseAt)), noHouse);
}

function dirname(uri: string): string {
  return uri.slice(0, Math.max(uri.lastIndexOf('/'), 0));
}

function foldersFrom(folder: string, root: string): string[] {
  return folder === root || !folder.startsWith(`${root}/`) ? [folder] : [...foldersFrom(dirname(folder), root), folder];
}

function houseIn(folder: string, houseAt: HouseAt): House {
  for (const name of HOUSE_FILES) {
    const house = houseAt(`${folder}/${name}`);
    if (house) return house;
  }
  return noHouse;
}

function over(far: House, near: House): House {
  return {
    ...far,
    ...near,
    ...((far.limits || near.limits) && { limits: { ...far.limits, ...near.limits } }),
    ...((far.rules || near.rules) && { rules: { ...far.rules, ...near.rules } }),
  };
}
