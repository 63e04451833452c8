#!/usr/bin/env node
// Stands in for a VS Code executable: serves the browser-hosted VS Code, opens it in headless Chromium, loads the
// extension and its tests there, and exits with their code. Takes the arguments that runTests passes.
//   VSCODE_SERVER_MAIN, VSCODE_SERVER_NODE  what installBrowserHost returns
//   CHROMIUM          path of the browser
//   PAGE_SCRIPT       module whose default export, async (page), drives the page as a user would
//   RESTRICTED_MODE   when set, the workspace is not trusted
//   LAUNCH_LIMIT_MS   give up after this time
//   LAUNCH_LOG        file for what the workbench and the extension host write to their consoles
// An extension host that dies is reported by the workbench as code 0, so the caller must not believe 0 alone: the tests
// leave a record of their own that says they came to their end.
import { spawn } from 'node:child_process';
import { appendFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const { env } = process;
const option = (name) => process.argv.find((a) => a.startsWith(`--${name}=`))?.slice(name.length + 3);
const workspace = resolve(process.argv.slice(2).find((a) => !a.startsWith('-')) ?? '.');
const extension = option('extensionDevelopmentPath');
const tests = option('extensionTestsPath');
const limit = Number(env.LAUNCH_LIMIT_MS ?? 1_200_000);
const home = mkdtempSync(join(tmpdir(), 'vsc-'));
let server;
let browser;

const userSettings = {
  'chat.disableAIFeatures': true,
  'editor.minimap.enabled': false,
  'extensions.ignoreRecommendations': true,
  'files.autoSave': 'off', // a browser-hosted VS Code saves after a second, and then what a story throws away stays
  'git.enabled': false,
  'security.workspace.trust.startupPrompt': 'never',
  'security.workspace.trust.banner': 'never',
  'workbench.reduceMotion': 'on',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.startupEditor': 'none',
};

const freePort = () =>
  new Promise((ok) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => ok(port));
    });
  });

function startServer(port) {
  const settings = join(home, 'server', 'data', 'User');
  mkdirSync(settings, { recursive: true });
  writeFileSync(join(settings, 'settings.json'), JSON.stringify(userSettings));
  const args = [env.VSCODE_SERVER_MAIN, '--host', '127.0.0.1', '--port', String(port), '--without-connection-token'];
  args.push('--accept-server-license-terms', '--telemetry-level', 'off', '--server-data-dir', join(home, 'server'));
  args.push('--enable-smoke-test-driver'); // makes the workbench read the extension and test paths from the page's address
  if (!env.RESTRICTED_MODE) args.push('--disable-workspace-trust');
  server = spawn(env.VSCODE_SERVER_NODE, args, {
    detached: true,
    stdio: ['ignore', 'pipe', 'ignore'],
    env: { ...env, EXTENSIONS_GALLERY: '{"serviceUrl":""}', XDG_RUNTIME_DIR: home },
  });
}

function address(port) {
  const remote = (path) => `vscode-remote://127.0.0.1:${port}${encodeURI(resolve(path))}`;
  const payload = [['extensionDevelopmentPath', remote(extension)]];
  if (tests) payload.push(['extensionTestsPath', remote(tests)]);
  payload.push(['skipWelcome', 'true']);
  const query = new URLSearchParams({
    [workspace.endsWith('.code-workspace') ? 'workspace' : 'folder']: workspace,
    payload: JSON.stringify(payload),
  });
  return `http://127.0.0.1:${port}/?${query}`;
}

async function launch() {
  const port = await freePort();
  startServer(port);
  const failed = new Promise((_, fail) => {
    server.once('error', fail);
    server.once('exit', (code) => fail(new Error(`the VS Code server ended early (${code})`)));
    setTimeout(() => fail(new Error(`no result after ${limit} ms`)), limit).unref();
  });
  failed.catch(() => {});
  const listening = new Promise((ok) =>
    server.stdout.on('data', (chunk) => String(chunk).includes('Extension host agent listening') && ok()),
  );
  await Promise.race([listening, failed]);

  browser = await chromium.launch({
    executablePath: env.CHROMIUM,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  const [width, height] = (env.PAGE_SIZE ?? '1280x800').split('x').map(Number);
  const page = await browser.newPage({ viewport: { width, height } });
  await page.exposeFunction('codeAutomationLog', (level, args) => {
    if (env.LAUNCH_LOG) appendFileSync(env.LAUNCH_LOG, `${level} ${args.join(' ')}\n`);
  });
  const ended = new Promise((ok) => page.exposeFunction('codeAutomationExit', ok));
  await page.goto(address(port), { timeout: limit });
  const script = env.PAGE_SCRIPT && import(pathToFileURL(resolve(env.PAGE_SCRIPT)).href).then((m) => m.default(page));
  try {
    const [code] = await Promise.race([Promise.all([tests ? ended : 0, script]), failed]);
    return code;
  } catch (error) {
    if (env.LAUNCH_LOG) await page.screenshot({ path: `${env.LAUNCH_LOG}.png` }).catch(() => {});
    throw error;
  }
}

async function cleanUp() {
  await browser?.close().catch(() => {});
  if (server?.exitCode === null) {
    const gone = new Promise((ok) => server.once('exit', ok));
    try {
      process.kill(-server.pid, 'SIGTERM');
    } catch {
      // it has ended by itself
    }
    await Promise.race([gone, new Promise((ok) => setTimeout(ok, 5000))]);
  }
  rmSync(home, { recursive: true, force: true, maxRetries: 5 });
}

for (const stream of [process.stdout, process.stderr]) stream.on('error', () => {}); // a closed pipe must not skip the clean-up
for (const signal of ['SIGINT', 'SIGTERM']) {
  process.once(signal, async () => {
    await cleanUp();
    process.exit(130);
  });
}

let code = 1;
try {
  code = await launch();
} catch (error) {
  console.error(error.stack ?? error);
}
await cleanUp();
process.exit(code);
