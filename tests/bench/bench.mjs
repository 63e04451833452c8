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

const script = fileURLToPath(new URL('lsp-bench.mjs', import.meta.url));

function served(path, ...more) {
  const server = `node ${SERVER} --stdio`;
  const args = [script, '--server', server, '--doc', path, '--language', 'build-sheet', '--json', ...more];
  return JSON.parse(execFileSync(process.execPath, args, { encoding: 'utf8', maxBuffer: 1 << 26 }));
}

function shown(path, row) {
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

/** The time of a whole parse of each sheet. */
const parses = new Map();

function alone(path) {
  const text = readFileSync(path, 'utf8');
  const parse = () => parseDocument(text, { merge: true, prettyErrors: false, logLevel: 'error' });
  const value = plain(compose(parse(), root).root);
  const times = rounds([parse, () => validateSheet(value), () => checkText(text, noHouse)]);
  const of = (measure) => median(times.map(([parsing, validating, whole]) => measure(parsing, validating, whole)));
  parses.set(
    path,
    of((parsing) => parsing),
  );
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

const rows = new Map(paths.map((path) => [path, served(path)]));
console.log('Over stdio, ms. An edit is one character until its diagnostics are there; a burst is 100 edits.\n');
console.log(
  table([
    ['sheet', 'lines', 'open', 'edit', 'p95', 'hover', 'complete', 'outline', 'actions', 'burst', 'MB (peak)'],
    ...paths.map((path) => shown(path, rows.get(path))),
  ]),
);
console.log('\nThe core alone, ms: medians of rounds in which the three take turns, shares and ratio of each round.\n');
console.log(
  table([
    ['sheet', 'lines', 'parse', 'validate', 'check', 'parsing', 'validating', 'check / floor'],
    ...paths.map(alone),
  ]),
);

const [short, long, longest] = paths.slice(samples.length);
const firsts = Array.from({ length: 5 }, () => served(short, '--first').first);
const slowest = Math.max(...paths.slice(0, samples.length).map((path) => rows.get(path).actions.median ?? 0));
console.log(
  '\nWanted, and had in this run; the share holds on any machine, the times on one that parses 10,000 lines in 100 ms.\n',
);
console.log(
  table([
    ['what', 'wanted', 'had'],
    ['edit at 100 lines, ms', '3', ms(rows.get(short).edit.median)],
    ['edit at 1,000 lines, ms', '5', ms(rows.get(long).edit.median)],
    ['edit at 10,000 lines, share of a parse', '0.2', (rows.get(longest).edit.median / parses.get(longest)).toFixed(2)],
    ['actions at a position, slowest sample, ms', '10', ms(slowest)],
    ['start to first diagnostics at 100 lines, ms', '200', ms(median(firsts))],
    ['memory at 10,000 lines, MB', '120', rows.get(longest).memory.rssMB],
    ['whole parse of 10,000 lines, ms', '-', ms(parses.get(longest))],
  ]),
);
