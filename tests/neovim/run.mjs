// Runs the Neovim suite with the packed extension, set up by the lines of the README.
// Usage: node tests/neovim/run.mjs PACKAGE.vsix
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { unpackVsix } from '../vscode/package-under-test.mjs';
import { cleanSheet, unitlessPower } from '../vscode/suite/sheets.cjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const home = mkdtempSync(join(tmpdir(), 'build-sheet-neovim-'));

/** The README's lines for a user's init.lua, with the extension's folder in them. */
function linesOfReadme(extension) {
  const lines = readFileSync(join(root, 'README.md'), 'utf8').match(/^```lua\n(.*?)^```$/ms)?.[1];
  if (!lines?.includes('PATH')) throw new Error('the README has no lines for Neovim with a PATH in them');
  return lines.replaceAll('PATH', extension);
}

async function main() {
  const [vsix] = process.argv.slice(2);
  if (!vsix) throw new Error('usage: node tests/neovim/run.mjs PACKAGE.vsix');
  if (!existsSync(vsix)) throw new Error(`no ${basename(vsix)}: npm run package makes it`);
  const config = join(home, 'nvim');
  mkdirSync(config);
  writeFileSync(join(config, 'init.lua'), linesOfReadme(await unpackVsix(vsix, home)));
  const sheet = join(home, cleanSheet);
  copyFileSync(join(root, 'samples', cleanSheet), sheet);
  const suite = fileURLToPath(new URL('suite.lua', import.meta.url));
  const { error, status, signal } = spawnSync('nvim', ['--headless', '-n', '-i', 'NONE', '-c', `luafile ${suite}`], {
    cwd: home,
    stdio: ['ignore', 'inherit', 'inherit'],
    timeout: 600_000,
    env: {
      ...process.env,
      HOME: home,
      XDG_CONFIG_HOME: home,
      XDG_CONFIG_DIRS: home,
      XDG_DATA_HOME: home,
      XDG_STATE_HOME: home,
      SHEET: sheet,
      SLIP_BEFORE: unitlessPower.before,
      SLIP_AFTER: unitlessPower.after,
      SLIP_CODE: unitlessPower.code,
    },
  });
  if (error) throw error;
  if (signal) throw new Error(`ended by ${signal}`);
  process.exitCode = status ?? 1;
}

try {
  await main();
} catch (error) {
  console.error(`neovim: ${error.code === 'ENOENT' ? 'nvim is not installed' : error.message}`);
  process.exitCode = 1;
} finally {
  rmSync(home, { recursive: true, force: true });
}
