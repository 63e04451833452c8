#!/usr/bin/env node
// Times a language server over stdio, as an editor would use it. No dependencies.
//   node lsp-bench.mjs --server "CMD ARGS" --doc FILE [--language yaml] [--settings FILE] [--edits 40] [--at LINE:COLUMN] [--json]
//   ... --first        only the time from the start of the process to the first diagnostics
//   ... --cycles 2000  only memory in MB after a hundred, half and all of so many documents opened, edited and closed
// The edit replaces one character inside the value at --at (0-based; default: the middle line's first ": x"), alternately
// with a letter and back, so that diagnostics must be computed anew. Pull diagnostics are used where the server has them.
// Rows: start, open, edit, hover, completion, symbols, actions, burst (100 edits back to back), memory. Median and p95, ms.
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const option = (name, other) => {
  const i = process.argv.indexOf(`--${name}`);
  return i < 0 ? other : process.argv[i + 1];
};
const [command, ...args] = option('server').split(' ');
const file = resolve(option('doc'));
const uri = pathToFileURL(file).href;
const language = option('language', 'yaml');
const edits = Number(option('edits', 40));
const settings = option('settings') ? JSON.parse(readFileSync(option('settings'), 'utf8')) : {};
const text = readFileSync(file, 'utf8');
const now = () => performance.now();

const startedAt = now();
const child = spawn(command, args, { stdio: ['pipe', 'pipe', process.env.VERBOSE ? 'inherit' : 'ignore'] });
const waiting = new Map();
const listeners = new Set();
let nextId = 1;
let published = 0;
const send = (message) => {
  const body = Buffer.from(JSON.stringify({ jsonrpc: '2.0', ...message }));
  child.stdin.write(`Content-Length: ${body.length}\r\n\r\n`);
  child.stdin.write(body);
};
const notify = (method, params) => send({ method, params });
const request = (method, params) =>
  new Promise((ok, no) => {
    const id = nextId++;
    waiting.set(id, { ok, no });
    send({ id, method, params });
  });
const section = (name) => (name ? (name.split('.').reduce((o, k) => o?.[k], settings) ?? null) : settings);
function receive(message) {
  if (message.id !== undefined && message.method) {
    const result =
      message.method === 'workspace/configuration'
        ? message.params.items.map((i) => section(i.section))
        : message.method === 'workspace/workspaceFolders'
          ? null
          : null;
    send({ id: message.id, result });
  } else if (message.id !== undefined) {
    const w = waiting.get(message.id);
    waiting.delete(message.id);
    message.error ? w.no(new Error(`${message.error.code} ${message.error.message}`)) : w.ok(message.result);
  } else if (message.method === 'textDocument/publishDiagnostics' && message.params.uri === uri) {
    published++;
    for (const l of [...listeners]) l(message.params);
  }
}
let buffer = Buffer.alloc(0);
child.stdout.on('data', (chunk) => {
  buffer = Buffer.concat([buffer, chunk]);
  for (;;) {
    const end = buffer.indexOf('\r\n\r\n');
    if (end < 0) return;
    const length = Number(/Content-Length: (\d+)/i.exec(buffer.toString('latin1', 0, end))[1]);
    if (buffer.length < end + 4 + length) return;
    const body = buffer.toString('utf8', end + 4, end + 4 + length);
    buffer = buffer.subarray(end + 4 + length);
    receive(JSON.parse(body));
  }
});
const pushed = (test, limit = 30_000) =>
  new Promise((ok, no) => {
    const timer = setTimeout(() => {
      listeners.delete(l);
      no(new Error('no diagnostics in time'));
    }, limit);
    const l = (p) => {
      if (test(p)) {
        clearTimeout(timer);
        listeners.delete(l);
        ok(p);
      }
    };
    listeners.add(l);
  });

/** Memory of the server in MB: what it has now (VmRSS) or had at most (VmHWM). */
function memory(field) {
  const status = readFileSync(`/proc/${child.pid}/status`, 'utf8');
  return Math.round(new RegExp(`${field}:\\s+(\\d+)`).exec(status)[1] / 1024);
}

/** Opens, edits and closes a document under ever new names, and tells the memory on the way. */
async function cycles(count) {
  const seen = [];
  for (let cycle = 1; cycle <= count; cycle++) {
    const textDocument = { uri: uri.replace(/([^/]+)$/, `${cycle}-$1`) };
    notify('textDocument/didOpen', { textDocument: { ...textDocument, languageId: language, version: 1, text } });
    await request('textDocument/diagnostic', { textDocument });
    const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
    const contentChanges = [{ range, text: '# edited\n' }];
    notify('textDocument/didChange', { textDocument: { ...textDocument, version: 2 }, contentChanges });
    await request('textDocument/diagnostic', { textDocument });
    notify('textDocument/didClose', { textDocument });
    if ([100, Math.round(count / 2), count].includes(cycle)) seen.push(memory('VmRSS'));
  }
  console.log(JSON.stringify({ cycles: seen }));
  child.kill();
  process.exit(0);
}

const rows = {};
const quantile = (xs, q) => {
  const s = [...xs].sort((a, b) => a - b);
  return s[Math.min(s.length - 1, Math.floor(q * s.length))];
};
const record = (name, xs) => {
  rows[name] = { median: +quantile(xs, 0.5).toFixed(2), p95: +quantile(xs, 0.95).toFixed(2), n: xs.length };
};

const capabilities = {
  textDocument: {
    synchronization: { didSave: true },
    publishDiagnostics: { relatedInformation: true, versionSupport: true },
    diagnostic: { relatedDocumentSupport: true },
    hover: { contentFormat: ['markdown'] },
    completion: { completionItem: { snippetSupport: true } },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'source'] } } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
  },
  workspace: { configuration: true, workspaceFolders: true, didChangeConfiguration: {} },
};
const initialized = await request('initialize', {
  processId: process.pid,
  rootUri: pathToFileURL(resolve(file, '..')).href,
  workspaceFolders: [{ uri: pathToFileURL(resolve(file, '..')).href, name: 'bench' }],
  capabilities,
  initializationOptions: settings,
});
record('start', [now() - startedAt]);
const pull = Boolean(initialized.capabilities.diagnosticProvider);
notify('initialized', {});
notify('workspace/didChangeConfiguration', { settings });
if (option('cycles')) await cycles(Number(option('cycles')));
if (!process.argv.includes('--first')) await new Promise((ok) => setTimeout(ok, 300));

let version = 1;
let at = now();
const firstPush = pull ? null : pushed(() => true);
notify('textDocument/didOpen', { textDocument: { uri, languageId: language, version, text } });
let last = pull ? await request('textDocument/diagnostic', { textDocument: { uri } }) : await firstPush;
record('open', [now() - at]);
if (process.argv.includes('--first')) {
  console.log(JSON.stringify({ first: +(now() - startedAt).toFixed(1) }));
  child.kill();
  process.exit(0);
}

const lines = text.split('\n');
const [line, column] = option('at')
  ? option('at').split(':').map(Number)
  : (() => {
      for (let i = lines.length >> 1; i < lines.length; i++) {
        const m = /: ([\w"])/.exec(lines[i]);
        if (m) return [i, m.index + 2];
      }
      throw new Error('no scalar found to edit; give --at');
    })();
const original = lines[line][column];
let flipped = false;
const edit = () => {
  flipped = !flipped;
  version++;
  notify('textDocument/didChange', {
    textDocument: { uri, version },
    contentChanges: [
      {
        range: { start: { line, character: column }, end: { line, character: column + 1 } },
        text: flipped ? '~' : original,
      },
    ],
  });
};
const settled = () =>
  pull
    ? request('textDocument/diagnostic', { textDocument: { uri } })
    : pushed((p) => p.version === undefined || p.version === version);
const times = [];
for (let i = 0; i < edits + 5; i++) {
  at = now();
  const answer = pull ? null : settled();
  edit();
  last = pull ? await settled() : await answer;
  if (i >= 5) times.push(now() - at);
  if (!pull) await new Promise((ok) => setTimeout(ok, 20));
}
record('edit', times);
if (flipped) {
  const answer = pull ? null : settled();
  edit();
  last = pull ? await settled() : await answer;
}

const position = { line, character: column };
async function repeat(name, method, params) {
  const xs = [];
  try {
    for (let i = 0; i < edits + 3; i++) {
      at = now();
      await request(method, params);
      if (i >= 3) xs.push(now() - at);
    }
    record(name, xs);
  } catch (error) {
    rows[name] = { failed: error.message };
  }
}
await repeat('hover', 'textDocument/hover', { textDocument: { uri }, position });
await repeat('completion', 'textDocument/completion', { textDocument: { uri }, position });
await repeat('symbols', 'textDocument/documentSymbol', { textDocument: { uri } });
const found = pull ? (last.items ?? []) : last.diagnostics;
const target = found[0]?.range ?? { start: position, end: position };
await repeat('actions', 'textDocument/codeAction', {
  textDocument: { uri },
  range: target,
  context: { diagnostics: found.slice(0, 1) },
});

const before = published;
let lastPush = 0;
const clock = () => {
  lastPush = now();
};
listeners.add(clock);
at = now();
for (let i = 0; i < 100; i++) edit();
if (pull) {
  await settled();
  lastPush = now();
} else while (now() - Math.max(at, lastPush) < 1500) await new Promise((ok) => setTimeout(ok, 50)); // quiet for 1.5 s: done
listeners.delete(clock);
rows.burst = { ms: lastPush > at ? +(lastPush - at).toFixed(2) : null, published: published - before };

rows.memory = { rssMB: memory('VmRSS'), peakMB: memory('VmHWM') };
rows.diagnostics = { mode: pull ? 'pull' : 'push', count: found.length };
rows.document = { lines: lines.length, bytes: text.length };
await Promise.race([request('shutdown', null), new Promise((ok) => setTimeout(ok, 1000))]);
notify('exit');
console.log(
  process.argv.includes('--json')
    ? JSON.stringify(rows)
    : Object.entries(rows)
        .map(([k, v]) => k.padEnd(12) + JSON.stringify(v))
        .join('\n'),
);
setTimeout(() => {
  child.kill();
  process.exit(0);
}, 200);
