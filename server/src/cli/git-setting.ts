import { lstat, mkdir, readFile, rm } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { git, gitAnswer, workTreeOf } from './git.ts';
import { replace } from './replace.ts';
import { Misuse } from './verb.ts';

const BEGIN = '# build-sheet: begin';
const END = '# build-sheet: end';
const BLOCK = new RegExp(`^${BEGIN}\\n[^]*?^${END}\\n?`, 'm');

/** The parts of git's configuration that are ours. */
const SECTIONS = ['diff.build-sheet', 'diff.build-sheet-compare', 'difftool.build-sheet', 'merge.build-sheet'];

/** How `git diff` shows a sheet: with its figures and findings after its text, or by what the change does. */
export type Showing = 'figures' | 'compare';

/** Where it is said which files are sheets: in the repository, for all who have set git up, or for this clone alone. */
export type Reach = 'repository' | 'clone';

/**
 * Sets up git in the repository of a folder: how sheets are shown, compared and merged. What was set up before is replaced.
 * The file with the attributes is given back.
 * @throws Misuse where there is no repository, or it does not take it
 */
export async function setUpGit(
  program: readonly string[],
  showing: Showing,
  reach: Reach,
  cwd: string,
): Promise<string> {
  const top = await workTreeOf(cwd);
  await removeFromGit(cwd);
  const command = program.map(quotedForShell).join(' ');
  const settings: [string, string][] = [
    ['diff.build-sheet.textconv', `${command} git-text`],
    ['diff.build-sheet.xfuncname', '^[a-z][a-z-]*:.*$'],
    ['diff.build-sheet-compare.command', `${command} git-diff`],
    ['difftool.build-sheet.cmd', `${command} git-diff "$MERGED" "$LOCAL" . . "$REMOTE" . .`],
    ['merge.build-sheet.name', 'build sheets, field by field'],
    ['merge.build-sheet.driver', `${command} git-merge %O %A %B %L %P`],
  ];
  for (const [name, value] of settings)
    await git(['config', '--local', name, value], cwd, () => "git's configuration cannot be written.");
  const file = reach === 'repository' ? join(top, '.gitattributes') : await ownAttributes(cwd);
  const driver = showing === 'figures' ? 'build-sheet' : 'build-sheet-compare';
  const lines = ['*.build.yaml', '*.build.yml'].map((name) => `${name} diff=${driver} merge=build-sheet`);
  const before = await attributesIn(file);
  const gap = before === '' || before.endsWith('\n') ? '' : '\n';
  await mkdir(dirname(file), { recursive: true });
  await replace(file, `${before}${gap}${BEGIN}\n${lines.join('\n')}\n${END}\n`);
  return file;
}

/** Takes everything out again that `setUpGit` has set up; nothing else is touched. */
export async function removeFromGit(cwd: string): Promise<void> {
  const top = await workTreeOf(cwd);
  for (const section of SECTIONS) await gitAnswer(['config', '--local', '--remove-section', section], cwd);
  for (const file of [join(top, '.gitattributes'), await ownAttributes(cwd)]) {
    const before = await attributesIn(file);
    const after = before.replace(BLOCK, '');
    if (after === before) continue;
    if (after.trim() === '') await rm(file);
    else await replace(file, after);
  }
}

async function ownAttributes(cwd: string): Promise<string> {
  const path = await git(['rev-parse', '--git-path', 'info/attributes'], cwd, () => `${cwd} is in no git work tree.`);
  return resolve(cwd, path.trimEnd());
}

/** The text of a file with attributes; a link is not followed, since git does not follow it either. */
async function attributesIn(file: string): Promise<string> {
  const found = await lstat(file).catch(() => undefined);
  if (!found) return '';
  if (!found.isFile()) throw new Misuse(`${file} is not a regular file; git would not read it.`);
  return readFile(file, 'utf8');
}

/** A word of a command line as the shell that git starts takes it, whatever is in it. */
function quotedForShell(word: string): string {
  return /^[\w./:@-]+$/.test(word) ? word : `'${word.replaceAll('\\', '/').replaceAll("'", "'\\''")}'`;
}
