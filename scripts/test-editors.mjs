// Runs the suites that need an editor or a browser: Neovim, real VS Code, and the reports and the page in Chromium. Gets
// what they need where it can; where it can't, says which suite did not run and how to get what it needs. With CI=true that
// is a failure.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { installBrowserHost } from '../tests/vscode/browser-host/install.mjs';
import { findChromium, findVisualStudioCode, wantsDesktop } from '../tests/vscode/visual-studio-code.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));

const extension = join(root, 'dist/build-sheet.vsix');

const hasNeovim = () => spawnSync('nvim', ['--version'], { stdio: 'ignore' }).status === 0;

const mayInstallPackages = () => process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');

/** Installs Debian packages; quiet, and no error when it fails: the callers look whether the program is there. */
function installPackages(...packages) {
  console.log(`editors: installing the Debian packages ${packages.join(', ')}`);
  const aptGet = (...args) =>
    spawnSync('apt-get', ['-qq', '-y', ...args], {
      stdio: 'ignore',
      timeout: 300_000,
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    }).status === 0;
  const install = () => aptGet('install', '--no-install-recommends', ...packages);
  if (install()) return;
  console.log('editors: not installed; trying again with a new list of packages');
  if (aptGet('update')) install();
}

/** Runs one suite, passing its output on, and reads its last line: how many passed and failed. */
async function runSuite(name, ...args) {
  const child = spawn(process.execPath, args, { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] });
  let output = '';
  child.stdout.on('data', (chunk) => {
    output += chunk;
    process.stdout.write(chunk);
  });
  const code = await new Promise((ok) => child.once('close', ok));
  const [, passed, failed] = output.match(new RegExp(`^${name}: (\\d+) passed, (\\d+) failed$`, 'm')) ?? [0, 0, 0];
  return { passed: Number(passed), failed: code === 0 ? Number(failed) : Math.max(1, Number(failed)) };
}

async function testNeovim() {
  if (!hasNeovim()) return { missing: 'Neovim: install the Debian package neovim' };
  return runSuite('neovim', join(root, 'tests/neovim/run.mjs'), extension);
}

async function testVisualStudioCode() {
  try {
    await findVisualStudioCode();
  } catch (error) {
    return { missing: `VS Code: ${error.message}` };
  }
  return runSuite('vscode', join(root, 'tests/vscode/run.mjs'), extension);
}

async function testReports() {
  if (!findChromium()) return { missing: 'the reports: install the Debian package chromium, or name one in CHROMIUM' };
  installBrowserHost();
  return runSuite('report', join(root, 'tests/report/run.mjs'));
}

async function testPage() {
  if (!findChromium()) return { missing: 'the page: install the Debian package chromium, or name one in CHROMIUM' };
  installBrowserHost();
  return runSuite('page', join(root, 'tests/page/run.mjs'));
}

const wanted = [...(hasNeovim() ? [] : ['neovim']), ...(findChromium() || wantsDesktop() ? [] : ['chromium'])];
if (wanted.length > 0 && mayInstallPackages()) installPackages(...wanted);

const results = [await testNeovim(), await testVisualStudioCode(), await testReports(), await testPage()];
const passed = results.reduce((sum, result) => sum + (result.passed ?? 0), 0);
const failed = results.reduce((sum, result) => sum + (result.failed ?? 0), 0);
const missing = results.flatMap((result) => result.missing ?? []);
for (const reason of missing) console.log(`editors: DID NOT RUN  ${reason}; then run npm test again`);
console.log(
  `editors: ${passed} passed, ${failed} failed${missing.length > 0 ? `, ${missing.length} suites did not run` : ''}`,
);
if (failed > 0 || (missing.length > 0 && process.env.CI === 'true')) process.exitCode = 1;
