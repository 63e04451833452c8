// Checks a folder of a thousand sheets in the background over stdio, and says how long it takes, how many times the work of
// parsing and validating them that is, what it costs in memory and what it does to typing. From the project's folder:
// npm run bench:folder, or after a build node tests/bench/folder.mjs [SHEETS]

import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { core, median } from './core.mjs';
import { longSheet } from './long-sheet.mjs';

/** The project's own, not an older one that came with a server to compare with. */
const fromRoot = createRequire(new URL('../../package.json', import.meta.url));
const { createMessageConnection, StreamMessageReader, StreamMessageWriter } = fromRoot('vscode-jsonrpc/node');

const COUNT = Number(process.argv[2] ?? 1000);
const KEY_EVERY = 80;
const shop = mkdtempSync(join(tmpdir(), 'folder-bench-'));

/** Sheets of a whole build each, all different, in some folders, among as many files of others. */
function writeShop() {
  const build = longSheet(100);
  for (let number = 0; number < COUNT; number++) {
    const folder = join(shop, `bay-${number % 20}`);
    mkdirSync(folder, { recursive: true });
    const power = `power: ${200 + (number % 150)} hp`;
    const text = build.replace(/power: \d+ hp/, power).replace('altitude: 900 m', `altitude: ${number} m`);
    writeFileSync(join(folder, `car-${number}.build.yaml`), text);
    writeFileSync(join(folder, `other-${number}.yaml`), text);
  }
}

/** Milliseconds of work that parsing and validating some of the sheets takes, for all of them. */
async function floor() {
  const { parseDocument, compose, plain, root, validateSheet } = await core();
  const texts = Array.from({ length: Math.min(COUNT, 300) }, (_, number) =>
    readFileSync(join(shop, `bay-${number % 20}`, `car-${number}.build.yaml`), 'utf8'),
  );
  const read = (text) => {
    const parsed = parseDocument(text, { merge: true, prettyErrors: false, logLevel: 'error' });
    validateSheet(plain(compose(parsed, root)));
  };
  for (const text of texts) read(text);
  const begun = process.cpuUsage();
  for (const text of texts) read(text);
  const { user, system } = process.cpuUsage(begun);
  return ((user + system) / 1000 / texts.length) * COUNT;
}

async function served() {
  const server = spawn(process.execPath, ['dist/server.cjs', '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createMessageConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  );
  connection.listen();
  for (const ask of ['client/registerCapability', 'workspace/diagnostic/refresh'])
    connection.onRequest(ask, () => null);
  const uri = pathToFileURL(shop).href;
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: uri,
    workspaceFolders: [{ uri, name: 'shop' }],
    capabilities: {
      textDocument: { diagnostic: {} },
      workspace: { workspaceFolders: true, didChangeWatchedFiles: { dynamicRegistration: true } },
    },
  });
  await connection.sendNotification('initialized', {});
  return { server, connection };
}

/** Megabytes that a process holds, now and at most. */
function memoryOf(pid) {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8');
  const megabytes = (name) => Math.round(Number(status.match(new RegExp(`${name}:\\s+(\\d+)`))[1]) / 1024);
  return `${megabytes('VmRSS')} MB (${megabytes('VmHWM')} MB at most)`;
}

/** Milliseconds of work a process has done. */
function cpuOf(pid) {
  const [user, system] = readFileSync(`/proc/${pid}/stat`, 'utf8').split(' ').slice(13, 15);
  return 10 * (Number(user) + Number(system));
}

/** Types into a sheet until it is told to stop; the times from each key to the findings of its version. */
async function typing(connection, uri, isOver) {
  const times = [];
  for (let version = 2; !isOver(times); version++) {
    const start = performance.now();
    const text = String(version % 10);
    const range = { start: { line: 1, character: 7 }, end: { line: 1, character: 8 } };
    connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ range, text }],
    });
    await connection.sendRequest('textDocument/diagnostic', { textDocument: { uri } });
    times.push(performance.now() - start);
    await new Promise((go) => setTimeout(go, Math.max(0, KEY_EVERY - (performance.now() - start))));
  }
  return times;
}

const told = (times) => {
  const sorted = times.toSorted((one, other) => one - other);
  const [middle, slow] = [median(sorted), sorted[Math.floor(sorted.length * 0.95)]];
  return `${middle.toFixed(1)} ms in the middle, 95 % within ${slow.toFixed(1)} ms (${times.length} keys)`;
};

writeShop();
console.log(
  `${availableParallelism()} cores, load ${loadavg()[0].toFixed(1)}; a time taken at a load above that of the bench is worth nothing`,
);
const { server, connection } = await served();
try {
  const uri = pathToFileURL(join(shop, 'bay-0', 'car-0.build.yaml')).href;
  const text = readFileSync(join(shop, 'bay-0', 'car-0.build.yaml'), 'utf8');
  await connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'build-sheet', version: 1, text },
  });
  await connection.sendRequest('textDocument/diagnostic', { textDocument: { uri } });
  const still = await typing(connection, uri, (times) => times.length >= 40);
  console.log(`typing alone:                ${told(still)}`);
  const start = performance.now();
  const begun = cpuOf(server.pid);
  let took;
  const all = connection.sendRequest('workspace/diagnostic', { previousResultIds: [] }).then(({ items }) => {
    took = performance.now() - start;
    return items;
  });
  let work;
  all.then(() => {
    work = cpuOf(server.pid) - begun;
  });
  const beside = await typing(connection, uri, () => took !== undefined);
  const items = await all;
  console.log(`typing beside the check:     ${told(beside)}`);
  console.log(
    `${items.length} sheets checked:         ${(took / 1000).toFixed(2)} s, ${(work / 1000).toFixed(2)} s of work, somebody typing all the while`,
  );
  const least = await floor();
  console.log(
    `beside parsing and validating: ${(work / least).toFixed(1)} times their ${(least / 1000).toFixed(2)} s of work, typing and the program's start counted`,
  );
  const previousResultIds = items.map((item) => ({ uri: item.uri, value: item.resultId }));
  const before = cpuOf(server.pid);
  let isHeld = true;
  const answered = () => {
    isHeld = false;
  };
  connection.sendRequest('workspace/diagnostic', { previousResultIds }).then(answered, () => {});
  await new Promise((go) => setTimeout(go, 2000));
  console.log(
    `asked again, nothing new:    ${isHeld ? 'held' : 'answered'}, ${cpuOf(server.pid) - before} ms of work in 2 s`,
  );
  console.log(`memory of the server:        ${memoryOf(server.pid)}`);
} finally {
  connection.dispose();
  server.kill();
  rmSync(shop, { recursive: true });
}
