import { execFileSync } from 'node:child_process';
import { folderWith } from './program.ts';

const IDENTITY = ['-c', 'user.name=shop', '-c', 'user.email=shop@example.com', '-c', 'commit.gpgsign=false'];

/** Runs git in a folder, as someone of the shop. */
export function git(cwd: string, ...args: string[]): string {
  return execFileSync('git', [...IDENTITY, ...args], { cwd, encoding: 'utf8', stdio: 'pipe' });
}

/** A repository whose first commit has these files. */
export function repository(files: Record<string, string>): string {
  const cwd = folderWith(files);
  git(cwd, 'init', '-q', '-b', 'main');
  git(cwd, 'add', '-A');
  git(cwd, 'commit', '-q', '-m', 'first');
  return cwd;
}
