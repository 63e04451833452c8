// Ours beside general language servers: start, edits, requests and memory on the same documents, as a table with ratios.
// Run from the project's folder after a build: node tests/bench/compare.mjs
import { execFileSync } from 'node:child_process';
import { arch, availableParallelism, loadavg, platform } from 'node:os';
import { fileURLToPath } from 'node:url';
import { middleDate, servers } from './anchors.mjs';
import { median, table } from './core.mjs';
import { writeLongSheets } from './long-sheet.mjs';

const script = fileURLToPath(new URL('lsp-bench.mjs', import.meta.url));
const ms = (value) => (value === undefined ? '-' : value.toFixed(value < 10 ? 2 : 1));

function run({ command, language, settings }, path, ...more) {
  const args = [script, '--server', command, '--doc', path, '--language', language, '--at', middleDate(path), '--json'];
  const all = [...args, ...(settings ? ['--settings', settings] : []), ...more];
  return JSON.parse(execFileSync(process.execPath, all, { encoding: 'utf8', maxBuffer: 1 << 26 }));
}

/** One server with one document: [start to first diagnostics, edit, hover, completion, outline, memory, peak]. */
function measured(server, sheet) {
  const path = server.document(sheet);
  const first = median(Array.from({ length: 3 }, () => run(server, path, '--first').first));
  const { edit, hover, completion, symbols, memory } = run(server, path);
  return [first, edit.median, hover?.median, completion?.median, symbols?.median, memory.rssMB, memory.peakMB];
}

const compared = servers();
const head = ['server', 'start', 'edit', 'hover', 'complete', 'outline', 'MB', 'peak MB'];
const load = loadavg()[0].toFixed(1);
console.log(`${platform()} ${arch()}, ${availableParallelism()} cores, load ${load}, Node ${process.versions.node}.`);
console.log(
  'Milliseconds; start is from the start of the process to the first diagnostics, edit until its diagnostics.',
);
for (const lines of [100, 1000, 10_000]) {
  const [sheet] = writeLongSheets([lines]);
  const rows = compared.map((server) => measured(server, sheet));
  const [ours, ...anchors] = rows;
  const ratios = anchors.map((row, index) => [
    `ours / ${compared[index + 1].name}`,
    ...row.map((value, column) => (value && ours[column] ? (ours[column] / value).toFixed(2) : '-')),
  ]);
  console.log(`\n${lines} lines\n`);
  console.log(table([head, ...rows.map((row, index) => [compared[index].name, ...row.map(ms)]), ...ratios]));
}
const [sheet] = writeLongSheets([100]);
const { cycles } = run(compared[0], sheet, '--cycles', '2000');
console.log(`\nMemory after 100, 1,000 and 2,000 documents opened, edited and closed: ${cycles.join(', ')} MB.`);
