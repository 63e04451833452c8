// Times the built server over stdio for the samples and for long sheets, and the core alone in this process.
// Run from the project's folder after a build: node tests/bench/bench.mjs
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { core, median, rounds, table } from './core.mjs';
import { writeLongSheets } from './long-sheet.mjs';

const SERVER = 'dist/server.cjs';
if (!existsSync(SERVER)) {
  console.error(`${SERVER} is missing: run \`npm run build\` first.`);
  process.exit(1);
}

const samples = readdirSync('samples').filter((name) => name.endsWith('.build.yaml'));
const paths = [...samples.map((name) => join('samples', name)), ...writeLongSheets([100, 1000, 10_000])];
const ms = (value) => value.toFixed(value < 10 ? 2 : 1);

function served(path) {
  const script = fileURLToPath(new URL('lsp-bench.mjs', import.meta.url));
  const args = [script, '--server', `node ${SERVER} --stdio`, '--doc', path, '--language', 'build-sheet', '--json'];
  const row = JSON.parse(execFileSync(process.execPath, args, { encoding: 'utf8', maxBuffer: 1 << 26 }));
  return [
    basename(path, '.build.yaml'),
    row.document.lines,
    ms(row.open.median),
    ms(row.edit.median),
    ms(row.edit.p95),
    ms(row.hover.median),
    ms(row.completion.median),
    ms(row.symbols.median),
    ms(row.actions.median),
    ms(row.burst.ms),
    `${row.memory.rssMB} (${row.memory.peakMB})`,
  ];
}

const { checkText, compose, noHouse, parseDocument, plain, root, validateSheet } = await core();

function alone(path) {
  const text = readFileSync(path, 'utf8');
  const parse = () => parseDocument(text, { merge: true, prettyErrors: false, logLevel: 'error' });
  const value = plain(compose(parse(), root).root);
  const times = rounds([parse, () => validateSheet(value), () => checkText(text, noHouse)]);
  const of = (measure) => median(times.map(([parsing, validating, whole]) => measure(parsing, validating, whole)));
  const share = (measure) => `${(of(measure) * 100).toFixed(0)} %`;
  return [
    basename(path, '.build.yaml'),
    text.split('\n').length,
    ms(of((parsing) => parsing)),
    of((_, validating) => validating).toFixed(3),
    ms(of((_, __, whole) => whole)),
    share((parsing, _, whole) => parsing / whole),
    share((_, validating, whole) => validating / whole),
    of((parsing, validating, whole) => whole / (parsing + validating)).toFixed(2),
  ];
}

console.log('Over stdio, ms. An edit is one character until its diagnostics are there; a burst is 100 edits.\n');
console.log(
  table([
    ['sheet', 'lines', 'open', 'edit', 'p95', 'hover', 'complete', 'outline', 'actions', 'burst', 'MB (peak)'],
    ...paths.map(served),
  ]),
);
console.log('\nThe core alone, ms: medians of rounds in which the three take turns, shares and ratio of each round.\n');
console.log(
  table([
    ['sheet', 'lines', 'parse', 'validate', 'check', 'parsing', 'validating', 'check / floor'],
    ...paths.map(alone),
  ]),
);
