// Shows the main job on the samples: starts the real language server, opens each sample through it, and prints what an
// editor would show: findings under the text they mark, the repairs offered, and the figures of every stage.
import { spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node';

const folder = resolve(process.argv[2] ?? 'samples');
const SEVERITY = ['', 'error', 'warning', 'information', 'hint'];

const server = spawn(process.execPath, ['dist/server.cjs', '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
const connection = createMessageConnection(
  new StreamMessageReader(server.stdout),
  new StreamMessageWriter(server.stdin),
);
connection.onRequest('client/registerCapability', () => null);
connection.listen();
await connection.sendRequest('initialize', {
  processId: process.pid,
  rootUri: pathToFileURL(folder).href,
  capabilities: { textDocument: { diagnostic: {}, codeAction: { codeActionLiteralSupport: {} } } },
});
await connection.sendNotification('initialized', {});

for (const name of readdirSync(folder).filter((file) => /\.build\.ya?ml$/.test(file))) await show(name);

await connection.sendRequest('shutdown');
await connection.sendNotification('exit');

const vsix = 'dist/build-sheet.vsix';
if (existsSync(vsix)) {
  console.log(`\nThe extension is packed in ${vsix} (${(statSync(vsix).size / 1024).toFixed(0)} kB). Install it with`);
  console.log(`  code --install-extension ${vsix}`);
  console.log('or in VS Code: Extensions view, menu "...", "Install from VSIX...". Then open the folder samples/.');
}

async function show(name) {
  const text = readFileSync(join(folder, name), 'utf8');
  const uri = pathToFileURL(join(folder, name)).href;
  const textDocument = { uri };
  await connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'build-sheet', version: 1, text },
  });
  const { items } = await connection.sendRequest('textDocument/diagnostic', { textDocument });
  console.log(
    `\n=== ${name}: ${items.length === 0 ? 'no findings' : `${items.length} finding${items.length > 1 ? 's' : ''}`}`,
  );
  const lines = text.split(/\r?\n/);
  for (const item of items) await showFinding(textDocument, lines, item);
  await showAccepted(textDocument, lines);
  const line = lines.findIndex((one) => /^stages:/.test(one));
  const hover =
    line < 0
      ? null
      : await connection.sendRequest('textDocument/hover', { textDocument, position: { line, character: 1 } });
  if (hover) console.log(`\n${table(hover.contents.value)}`);
  await connection.sendNotification('textDocument/didClose', { textDocument });
}

async function showFinding(textDocument, lines, { range, severity, code, message, ...rest }) {
  const line = lines[range.start.line];
  const width = range.end.line === range.start.line ? range.end.character - range.start.character : 1;
  const number = String(range.start.line + 1).padStart(4);
  console.log(`\n${number} | ${line}\n     | ${' '.repeat(range.start.character)}${'^'.repeat(Math.max(1, width))}`);
  console.log(`     ${SEVERITY[severity]} ${code}: ${message}`);
  const diagnostics = [{ range, severity, code, message, ...rest }];
  const actions = await connection.sendRequest('textDocument/codeAction', {
    textDocument,
    range,
    context: { diagnostics },
  });
  const own = actions.filter((action) =>
    action.diagnostics?.some((one) => one.code === code && one.message === message),
  );
  for (const { title } of own) console.log(`     repair: ${title}`);
}

/** The findings that the sheet silences, with the reason. */
async function showAccepted(textDocument, lines) {
  const line = lines.findIndex((one) => /^silence:/.test(one));
  if (line < 0) return;
  const hover = await connection.sendRequest('textDocument/hover', { textDocument, position: { line, character: 1 } });
  for (const accepted of hover?.contents.value.split('\n').filter((one) => one.startsWith('- accepted')) ?? [])
    console.log(`\n     ${accepted.slice(2)}`);
}

/** The table of figures of a hover. */
function table(text) {
  const paragraphs = text.split('\n\n');
  return paragraphs.find((paragraph) => paragraph.startsWith('figure ')) ?? '';
}
