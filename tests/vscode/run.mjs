// Runs the extension tests in real VS Code against the packaged extension. Usage: node tests/vscode/run.mjs PACKAGE.vsix [SUITE]...
import assert from 'node:assert/strict';
import { execFileSync, spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runTests } from '@vscode/test-electron';
import { isCollection, isSeq, parseDocument, visit } from 'yaml';
import { longSheet } from '../bench/long-sheet.mjs';
import { hostileShop } from '../hostile-shop.mjs';
import { unpackVsix } from './package-under-test.mjs';
import { cleanSheet } from './suite/sheets.cjs';
import { findVisualStudioCode } from './visual-studio-code.mjs';

const here = fileURLToPath(new URL('.', import.meta.url));
const samples = fileURLToPath(new URL('../../samples', import.meta.url));
const artifacts = fileURLToPath(new URL('../artifacts', import.meta.url));
const program = fileURLToPath(new URL('../../dist/build-sheet.cjs', import.meta.url));
const home = mkdtempSync(join(tmpdir(), 'build-sheet-vscode-'));

/** Where the workbench's console goes: kept, because it tells what happened when a story fails. */
const logOf = (title) => join(artifacts, `vscode-${title}.log`);

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

const recordOf = (title) => join(home, `${title}.jsonl`);

/**
 * Prints a record's stories, and what they did again, and returns how many passed and failed. A record without its end
 * counts as a failure.
 */
function readRecord(title) {
  const record = recordOf(title);
  const lines = existsSync(record) ? readFileSync(record, 'utf8').trim().split('\n').filter(Boolean) : [];
  const entries = lines.map((line) => JSON.parse(line));
  const stories = entries.filter((entry) => entry.story);
  for (const { story, ms, error } of stories) {
    console.log(`${error ? 'FAIL' : 'pass'}  ${title}: ${story} (${ms} ms)${error ? `\n${error}` : ''}`);
  }
  for (const { note } of entries) if (note) console.log(`note  ${title}: ${note}`);
  const ended = entries.some((entry) => entry.end) && stories.length > 0;
  if (!ended) console.log(`FAIL  ${title}: ended after ${stories.length} stories, before the suite did`);
  const failed = stories.filter((entry) => entry.error).length + (ended ? 0 : 1);
  return { passed: stories.filter((entry) => !entry.error).length, failed };
}

async function runSuite(vscode, extension, workspace, suite, env) {
  const title = suite.replace('.cjs', '');
  let refused;
  try {
    await runTests({
      vscodeExecutablePath: vscode.executable,
      extensionDevelopmentPath: extension,
      extensionTestsPath: join(here, 'suite', suite),
      launchArgs: [workspace],
      extensionTestsEnv: { ...vscode.env, STORY_RECORD: recordOf(title), LAUNCH_LOG: logOf(title), ...env },
    });
  } catch (error) {
    refused = error;
  }
  const result = readRecord(title);
  if (refused && result.failed === 0) {
    console.log(`FAIL  ${suite}: ${refused.message}`);
    result.failed = 1;
  }
  return result;
}

/** Drives the page of the browser-hosted VS Code as a user would; the page script leaves its own record. */
async function runPage(vscode, extension, script, workspace, env) {
  const child = spawn(vscode.executable, [workspace, `--extensionDevelopmentPath=${extension}`], {
    stdio: 'inherit',
    env: {
      ...process.env,
      ...vscode.env,
      STORY_RECORD: recordOf(script),
      LAUNCH_LOG: logOf(script),
      EXTENSION: extension,
      ARTIFACTS: artifacts,
      PAGE_SCRIPT: join(here, 'page', `${script}.mjs`),
      ...env,
    },
  });
  await new Promise((ok) => child.once('exit', ok));
  return readRecord(script);
}

/** A sample without its comments, one field a line but for tables. */
function inBlockStyle(sample) {
  const document = parseDocument(readFileSync(join(samples, sample), 'utf8'));
  visit(document, {
    Node: (_, node) => {
      node.commentBefore = null;
      node.comment = null;
      if (isCollection(node)) node.flow = isSeq(node) && node.items.every(isSeq);
    },
  });
  return document.toString({ lineWidth: 0, flowCollectionPadding: false }).trim();
}

function emptySheets(shop) {
  const empty = ['typed', 'completed'].map((name) => join(shop, `${name}.build.yaml`));
  for (const path of empty) writeFileSync(path, '');
  return { EMPTY_SHEETS: empty.join('\n'), COMPLETE_SHEET: inBlockStyle(cleanSheet) };
}

/** Puts a folder under version control, with one commit of all that is in it. */
function commitAll(folder) {
  const git = (...args) => execFileSync('git', args, { cwd: folder, stdio: 'ignore' });
  git('init', '--initial-branch=bench');
  git('add', '--all');
  git('-c', 'user.name=shop', '-c', 'user.email=shop@example.invalid', 'commit', '--message=As it came');
}

/** A sheet to move about in, and one that stays closed. */
const PLAN = `format: 2
title: Plan to move about in
fuel: { grade: gasoline-e10 }
ignition: { trigger: contact-points }
stages:
  - { name: first summer, power: 350 hp, induction: natural }
  - { name: roots blower, induction: roots, boost: 5 psi, changes: { fuel: { grade: e85 } } }
silence:
  - { rule: paper/no-handover, stage: roots blower, reason: not yet }
fuel-system:
  pump: { placement: in-tank, current: 11 A }
`;
const UNOPENED = 'format: 2\nignition: { trigger: contact-points }\nstages:\n  - { name: hidden stage }\n';

/** A counter with two pumps, of which the wagon has the one that is too small. */
function pumpCounter(shop) {
  const counter = join(shop, 'pumps');
  mkdirSync(counter);
  const pump = (id, cost, flow, atHigh, current) =>
    `  - { id: ${id}, cost: ${cost}, pump: { flow-at: [[40 psi, ${flow} L/h], [75 psi, ${atHigh} L/h]], rated-voltage: 13.5 V, current: ${current} A, relief-pressure: 104 psi } }\n`;
  const parts = [pump('small-110', 91.5, 110, 70, 5), pump('large-240', 171.5, 240, 170, 9)];
  writeFileSync(join(counter, 'build-sheet.config.yaml'), "catalogs: ['*.parts.yaml']\ncurrency: USD\n");
  writeFileSync(join(counter, 'pumps.parts.yaml'), `format: 1\nparts:\n${parts.join('')}`);
  const wagon = readFileSync(join(shop, 'quarry-wagon.build.yaml'), 'utf8');
  const sheet = join(counter, 'pumped.build.yaml');
  writeFileSync(sheet, wagon.replace(/^ {2}pump: .*$/m, '  pump: { use: small-110, placement: in-tank } # by phone'));
  return sheet;
}

/** An extension that can only run in the browser: with `main` the browser-hosted VS Code runs it on its server. */
function withoutMain(extension) {
  const file = join(extension, 'package.json');
  const { main, extensionKind, ...manifest } = JSON.parse(readFileSync(file, 'utf8'));
  assert.ok(main && extensionKind, 'nothing makes the extension run on a server');
  writeFileSync(file, JSON.stringify(manifest));
  return extension;
}

/** A counter under version control, with a hostile and a long sheet beside the wagon. */
function figuresWorkspace() {
  const { file, shop } = makeWorkspace();
  const { folders } = JSON.parse(readFileSync(file, 'utf8'));
  writeFileSync(file, JSON.stringify({ folders, settings: { 'git.enabled': true } }));
  const hostile = join(shop, 'hostile');
  mkdirSync(hostile);
  for (const [name, text] of Object.entries(hostileShop)) writeFileSync(join(hostile, name), text);
  const long = join(shop, 'long.build.yaml');
  writeFileSync(long, longSheet(1000));
  const sheets = {
    WAGON_SHEET: pumpCounter(shop),
    HOSTILE_SHEET: join(hostile, 'hostile.build.yaml'),
    LONG_SHEET: long,
  };
  commitAll(shop);
  return { file, env: { WORKSPACE: file, ...sheets } };
}

/** The suites by name; all but the first need the page of the browser-hosted VS Code. */
const suites = {
  editing: (vscode, extension) => runSuite(vscode, extension, makeWorkspace().file, 'editing.cjs', {}),
  restricted: (vscode, extension) =>
    runSuite(vscode, extension, makeWorkspace().shop, 'restricted.cjs', { RESTRICTED_MODE: '1' }),
  user: (vscode, extension) => {
    const { file, shop } = makeWorkspace();
    return runPage(vscode, extension, 'user', file, { SHEET: join(shop, cleanSheet) });
  },
  typing: (vscode, extension) => {
    const { file, shop } = makeWorkspace();
    return runPage(vscode, extension, 'typing', file, emptySheets(shop));
  },
  moving: (vscode, extension) => {
    const { file, shop } = makeWorkspace();
    writeFileSync(join(shop, 'plan.build.yaml'), PLAN);
    writeFileSync(join(shop, 'unopened.build.yaml'), UNOPENED);
    commitAll(shop);
    return runPage(vscode, extension, 'moving', file, { SHOP: shop, WORKSPACE: file });
  },
  choosing: (vscode, extension) => {
    const { file, shop } = makeWorkspace();
    const short = join(shop, 'counter', 'counter-call.build.yaml');
    const env = { PUMP_SHEET: pumpCounter(shop), SHORT_SHEET: short, PROGRAM: program };
    return runPage(vscode, extension, 'choosing', file, env);
  },
  figures: (vscode, extension) => {
    const { file, env } = figuresWorkspace();
    return runPage(vscode, extension, 'figures', file, env);
  },
  asking: (vscode, extension) => {
    const { file, shop } = makeWorkspace();
    const sheet = join(shop, 'asked.build.yaml');
    writeFileSync(sheet, '');
    return runPage(vscode, extension, 'asking', file, { ASKED_SHEET: sheet, COMPLETE_SHEET: inBlockStyle(cleanSheet) });
  },
  worker: (vscode, extension) => {
    const { shop } = makeWorkspace();
    return runPage(vscode, withoutMain(extension), 'worker', shop, { SHOP: shop });
  },
};

/** Runs suites one after the other, each with an extension of its own, and so with language servers of its own. */
async function runSuites(names, vscode, vsix) {
  const results = [];
  for (const name of names) results.push(await suites[name](vscode, await unpackVsix(vsix, join(home, name))));
  return results;
}

async function main() {
  const [vsix, ...only] = process.argv.slice(2);
  if (!vsix) throw new Error(`usage: node tests/vscode/run.mjs PACKAGE.vsix [${Object.keys(suites).join('|')}]...`);
  if (!existsSync(vsix)) throw new Error(`no ${basename(vsix)}: npm run package makes it`);
  mkdirSync(artifacts, { recursive: true });
  const vscode = await findVisualStudioCode();
  console.log(`VS Code: ${vscode.isDesktop ? 'desktop' : 'browser-hosted'}`);
  const possible = vscode.isDesktop ? ['editing'] : Object.keys(suites);
  const wanted = possible.filter((name) => only.length === 0 || only.includes(name));
  const isSlow = (name) => name === 'typing'; // real keys take their time: they are typed beside the others
  const results = await Promise.all([
    runSuites(wanted.filter(isSlow), vscode, vsix),
    runSuites(
      wanted.filter((name) => !isSlow(name)),
      vscode,
      vsix,
    ),
  ]);
  const passed = results.flat().reduce((sum, result) => sum + result.passed, 0);
  const failed = results.flat().reduce((sum, result) => sum + result.failed, 0);
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
