// How long typing takes: from a one-character edit to its diagnostics, over stdio as an editor does it, for the samples and
// for long sheets; and what share of that the floor is, YAML parsing and schema validation, measured in the same run.
//   npm run bench [-- --quick]
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { longSheet } from './long-sheet.mjs';

const isQuick = process.argv.includes('--quick');
const folder = mkdtempSync(join(tmpdir(), 'build-sheet-bench-'));
const cores = resolve('node_modules/.cache/bench');
mkdirSync(cores, { recursive: true });

/** The parts of the server that are timed in this process. */
async function loadCore() {
  const outfile = join(cores, `core-${process.pid}.mjs`);
  const contents = `
    export { parseDocument } from 'yaml';
    export { validateSheet } from './server/src/generated/validate.js';
    export { checkText } from './server/src/rules/checked.ts';
    export { check } from './server/src/rules/check.ts';
    export { analyze } from './server/src/analysis/analysis.ts';
    export { compose, plain } from './server/src/sheet/compose.ts';
    export { root } from './server/src/sheet/schema.ts';`;
  await build({
    stdin: { contents, resolveDir: '.', loader: 'ts' },
    bundle: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    outfile,
    logLevel: 'error',
  });
  const core = await import(pathToFileURL(outfile).href);
  rmSync(outfile);
  return core;
}

const core = await loadCore();
const documents = [
  ...readdirSync('samples')
    .filter((file) => file.endsWith('.build.yaml'))
    .map((file) => ({ name: file.replace('.build.yaml', ''), path: join('samples', file) })),
  ...[100, 1000, 10_000].map((lines) => {
    const path = join(folder, `lines-${lines}.build.yaml`);
    writeFileSync(path, longSheet(lines));
    return { name: `${lines} lines`, path };
  }),
];

/** Median time of a call in ms, after a warm-up. */
function median(call, least = 15) {
  const times = [];
  const until = performance.now() + (isQuick ? 200 : 800);
  for (let run = 0; run < 3; run++) call();
  while (times.length < least || performance.now() < until) {
    const at = performance.now();
    call();
    times.push(performance.now() - at);
    if (times.length > 2000) break;
  }
  return times.sort((one, other) => one - other)[times.length >> 1];
}

function inProcess(text) {
  const parse = () => core.parseDocument(text, { merge: true, prettyErrors: false });
  const document = parse();
  const value = core.plain(core.compose(document, core.root));
  return {
    parse: median(parse),
    validate: median(() => core.validateSheet(value)),
    whole: median(() => core.checkText(text, {})),
  };
}

/** Line and column, from 0, of a digit inside a value that figures depend on. */
function placeToEdit(text) {
  const lines = text.split('\n');
  const line = lines.findIndex((one) => /displacement:/.test(one));
  const column = lines[line].search(/(?<=displacement: *)\d/);
  return `${line}:${column}`;
}

const number = (value, digits = 1) => (value === null || value === undefined ? '-' : value.toFixed(digits));
const rows = documents.map(({ name, path }) => {
  const text = readFileSync(path, 'utf8');
  const edits = text.length > 100_000 ? '10' : isQuick ? '10' : '40';
  const output = execFileSync(
    process.execPath,
    [
      'tests/bench/lsp-bench.mjs',
      '--server',
      `${process.execPath} dist/server.cjs --stdio`,
      '--doc',
      path,
      '--language',
      'build-sheet',
      '--edits',
      edits,
      '--at',
      placeToEdit(text),
      '--json',
    ],
    { encoding: 'utf8', maxBuffer: 1 << 26 },
  );
  const { open, edit, hover, completion, symbols, actions, burst, memory, diagnostics } = JSON.parse(output);
  const { parse, validate, whole } = inProcess(text);
  return {
    document: name,
    lines: text.split('\n').length,
    'open ms': number(open.median),
    'edit ms': number(edit.median),
    'p95 ms': number(edit.p95),
    'parse ms': number(parse, 2),
    'validate ms': number(validate, 3),
    'whole check ms': number(whole, 2),
    'edit / floor': number(edit.median / (parse + validate)),
    'parse share': `${Math.round((100 * parse) / edit.median)} %`,
    'validate share': `${number((100 * validate) / edit.median)} %`,
    'hover ms': number(hover.median),
    'completion ms': number(completion.median),
    'symbols ms': number(symbols.median),
    'actions ms': number(actions.median),
    'burst of 100 ms': number(burst.ms),
    'memory MB': memory.rssMB,
    findings: diagnostics.count,
  };
});
print(rows);

const plain = readFileSync(documents.at(-3).path, 'utf8').replaceAll(/ \+\/- \d+(?= hp)/g, '');
const loose = plain
  .replace('displacement: 4.9 L', 'displacement: 4.9 +/- 0.05 L')
  .replace('power: 290 hp', 'power: 290 +/- 15 hp')
  .replace('idle: 750 rpm', 'idle: 750 +/- 30 rpm')
  .replace('charging-voltage: 13.8 V', 'charging-voltage: 13.8 +/- 0.3 V');
console.log('\nAnalysis of a full sheet with three stages:');
print(
  [
    ['without tolerances', plain],
    ['with four tolerances', loose],
  ].map(([name, text]) => {
    const { sheet } = core.checkText(text, {});
    const { parse, validate } = inProcess(text);
    const analysis = median(() => core.analyze(sheet, {}));
    return {
      sheet: name,
      'analysis ms': number(analysis, 2),
      'rules ms': number(median(() => core.check(sheet, core.analyze(sheet, {}), {})) - analysis, 2),
      'analysis / floor': number(analysis / (parse + validate), 2),
    };
  }),
);
rmSync(folder, { recursive: true });

function print(table) {
  const names = Object.keys(table[0]);
  const widths = names.map((name) => Math.max(name.length, ...table.map((row) => String(row[name]).length)));
  const line = (cells) =>
    cells
      .map((cell, column) => (column ? String(cell).padStart(widths[column]) : String(cell).padEnd(widths[column])))
      .join('  ');
  console.log(line(names));
  for (const row of table) console.log(line(names.map((name) => row[name])));
}
