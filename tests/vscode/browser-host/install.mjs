// Installs the browser-hosted VS Code beside this file, from the package registry alone and without install scripts.
// Does nothing when the last install finished with the same lock file.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = fileURLToPath(new URL('.', import.meta.url));
const vscode = `${here}node_modules/code-server/lib/vscode`;
const done = `${here}node_modules/.installed`;

const lockHash = () =>
  createHash('sha256')
    .update(readFileSync(`${here}package-lock.json`))
    .digest('hex');

function npm(args, cwd) {
  const { status, error } = spawnSync(
    'npm',
    [...args, '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'],
    {
      cwd,
      stdio: ['ignore', 'ignore', 'inherit'],
      shell: process.platform === 'win32',
    },
  );
  if (error) throw error;
  if (status !== 0) throw new Error(`npm ${args.join(' ')} ended with ${status} in ${cwd}`);
}

/** The Node the VS Code server asks for (major 24): this process's own, or the one from the registry package. */
function serverNode() {
  const packaged = `${here}node_modules/node-linux-${process.arch}/bin/node`;
  if (existsSync(packaged)) return packaged;
  if (Number(process.versions.node.split('.')[0]) === 24) return process.execPath;
  throw new Error(
    `the browser-hosted VS Code needs Node 24 here; this is ${process.version} on ${process.platform}-${process.arch}`,
  );
}

/** Makes the browser-hosted VS Code ready; returns the paths of its server and of the Node to run it. Throws on failure. */
export function installBrowserHost() {
  const hash = lockHash();
  if (!existsSync(done) || readFileSync(done, 'utf8') !== hash) {
    rmSync(done, { force: true });
    npm(['ci'], here);
    npm(['ci', '--omit=dev', '--legacy-peer-deps'], vscode); // its lock file was written without peer dependencies
    writeFileSync(done, hash);
  }
  return { main: `${vscode}/out/server-main.js`, node: serverNode() };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  try {
    console.log(`browser-hosted VS Code: ${installBrowserHost().main.slice(here.length)}`);
  } catch (error) {
    console.error(`browser-hosted VS Code: ${error.message}`);
    process.exitCode = 1;
  }
}
