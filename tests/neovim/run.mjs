// Runs the Neovim suite against the built server. Usage: node tests/neovim/run.mjs [SERVER.cjs]
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cleanSheet, unitlessPower } from '../vscode/suite/sheets.cjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const server = resolve(process.argv[2] ?? join(root, 'dist', 'server.cjs'));
const home = mkdtempSync(join(tmpdir(), 'build-sheet-neovim-'));

function main() {
  if (!existsSync(server)) throw new Error('the server is not built: npm run build');
  const sheet = join(home, cleanSheet);
  copyFileSync(join(root, 'samples', cleanSheet), sheet);
  const { error, status, signal } = spawnSync(
    'nvim',
    ['--clean', '--headless', '-n', '-c', `luafile ${fileURLToPath(new URL('suite.lua', import.meta.url))}`],
    {
      stdio: ['ignore', 'inherit', 'inherit'],
      timeout: 180_000,
      env: {
        ...process.env,
        HOME: home,
        XDG_STATE_HOME: home,
        SERVER_COMMAND: JSON.stringify([process.execPath, server, '--stdio']),
        SHEET: sheet,
        SLIP_BEFORE: unitlessPower.before,
        SLIP_AFTER: unitlessPower.after,
        SLIP_CODE: unitlessPower.code,
      },
    },
  );
  if (error) throw error;
  if (signal) throw new Error(`ended by ${signal}`);
  process.exitCode = status ?? 1;
}

try {
  main();
} catch (error) {
  console.error(`neovim: ${error.code === 'ENOENT' ? 'nvim is not installed' : error.message}`);
  process.exitCode = 1;
} finally {
  rmSync(home, { recursive: true, force: true });
}
