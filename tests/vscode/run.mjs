// Runs the extension tests in real VS Code against the packaged extension. Usage: node tests/vscode/run.mjs PACKAGE.vsix
import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runTests } from '@vscode/test-electron';
import { unpackVsix } from './package-under-test.mjs';
import { cleanSheet } from './suite/sheets.cjs';
import { findVisualStudioCode } from './visual-studio-code.mjs';

const here = fileURLToPath(new URL('.', import.meta.url));
const samples = fileURLToPath(new URL('../../samples', import.meta.url));
const artifacts = fileURLToPath(new URL('../artifacts', import.meta.url));
const home = mkdtempSync(join(tmpdir(), 'build-sheet-vscode-'));
const record = join(home, 'stories.jsonl');

/** Where the workbench's console goes: kept, because it tells what happened when a story fails. */
const logOf = (suite) => join(artifacts, `vscode-${suite.replace('.cjs', '')}.log`);

/** A fresh workspace of two folders: a copy of the samples, and a second shop. */
function makeWorkspace() {
  const place = mkdtempSync(join(home, 'workspace-'));
  const shop = join(place, 'shop');
  cpSync(samples, shop, { recursive: true });
  cpSync(join(samples, cleanSheet), join(place, 'second-shop', 'pickup.build.yaml'));
  const file = join(place, 'two-folders.code-workspace');
  writeFileSync(file, JSON.stringify({ folders: [{ path: 'shop' }, { path: 'second-shop' }] }));
  return { file, shop };
}

/** Prints the record's stories and returns how many passed and failed. A record without its end counts as a failure. */
function readRecord(title) {
  const lines = existsSync(record) ? readFileSync(record, 'utf8').trim().split('\n').filter(Boolean) : [];
  const entries = lines.map((line) => JSON.parse(line));
  const stories = entries.filter((entry) => entry.story);
  for (const { story, ms, error } of stories) {
    console.log(`${error ? 'FAIL' : 'pass'}  ${title}: ${story} (${ms} ms)${error ? `\n${error}` : ''}`);
  }
  const ended = entries.some((entry) => entry.end) && stories.length > 0;
  if (!ended) console.log(`FAIL  ${title}: ended after ${stories.length} stories, before the suite did`);
  const failed = stories.filter((entry) => entry.error).length + (ended ? 0 : 1);
  return { passed: stories.filter((entry) => !entry.error).length, failed };
}

async function runSuite(vscode, extension, workspace, suite, env) {
  rmSync(record, { force: true });
  let refused;
  try {
    await runTests({
      vscodeExecutablePath: vscode.executable,
      extensionDevelopmentPath: extension,
      extensionTestsPath: join(here, 'suite', suite),
      launchArgs: [workspace],
      extensionTestsEnv: { ...vscode.env, STORY_RECORD: record, LAUNCH_LOG: logOf(suite), ...env },
    });
  } catch (error) {
    refused = error;
  }
  const result = readRecord(suite.replace('.cjs', ''));
  if (refused && result.failed === 0) {
    console.log(`FAIL  ${suite}: ${refused.message}`);
    result.failed = 1;
  }
  return result;
}

/** Drives the page of the browser-hosted VS Code as a user would; the page script leaves its own record. */
async function runPage(vscode, extension) {
  const { file, shop } = makeWorkspace();
  rmSync(record, { force: true });
  const child = spawn(vscode.executable, [file, `--extensionDevelopmentPath=${extension}`], {
    stdio: 'inherit',
    env: {
      ...process.env,
      ...vscode.env,
      STORY_RECORD: record,
      LAUNCH_LOG: logOf('page'),
      EXTENSION: extension,
      SHEET: join(shop, cleanSheet),
      ARTIFACTS: artifacts,
      PAGE_SCRIPT: join(here, 'page', 'user.mjs'),
    },
  });
  await new Promise((ok) => child.once('exit', ok));
  return readRecord('page');
}

async function main() {
  const [vsix] = process.argv.slice(2);
  if (!vsix) throw new Error('usage: node tests/vscode/run.mjs PACKAGE.vsix');
  if (!existsSync(vsix)) throw new Error(`no ${basename(vsix)}: npm run package makes it`);
  mkdirSync(artifacts, { recursive: true });
  const vscode = await findVisualStudioCode();
  const extension = await unpackVsix(vsix, home);
  console.log(`VS Code: ${vscode.isDesktop ? 'desktop' : 'browser-hosted'}`);
  const results = [await runSuite(vscode, extension, makeWorkspace().file, 'editing.cjs', {})];
  if (!vscode.isDesktop) {
    results.push(await runSuite(vscode, extension, makeWorkspace().shop, 'restricted.cjs', { RESTRICTED_MODE: '1' }));
    results.push(await runPage(vscode, extension));
  }
  const passed = results.reduce((sum, result) => sum + result.passed, 0);
  const failed = results.reduce((sum, result) => sum + result.failed, 0);
  console.log(`vscode: ${passed} passed, ${failed} failed`);
  process.exitCode = failed > 0 ? 1 : 0;
}

try {
  await main();
} catch (error) {
  console.error(`vscode: ${error.message}`);
  process.exitCode = 1;
} finally {
  rmSync(home, { recursive: true, force: true });
}
