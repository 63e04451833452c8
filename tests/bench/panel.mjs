// Times what the panel beside the sheet waits for after an edit, once the diagnostics are known, and how many times the floor
// of parsing and validation each is in the same run. From the project's folder: npm run bench:panel
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { core, median, table } from './core.mjs';
import { longSheet } from './long-sheet.mjs';

const { compose, parseDocument, plain, root, Service, validateSheet } = await core();
const ROUNDS = 40;
const WARM = 12;
const URI = 'file:///sheet.build.yaml';
const settings = [{ field: 'engine.redline', value: '5600 rpm' }];

/** What is asked for in each round after an edit, in this order. */
const asked = {
  diagnostics: (service) => service.diagnose(URI),
  figures: (service) => JSON.stringify(service.figures(URI)),
  'beside the commit': (service, before) => JSON.stringify(service.figures(URI, { before })),
  'with what is tried': (service) => JSON.stringify(service.figures(URI, { settings })),
  questions: (service) => service.questions(URI),
  curves: (service) => service.curves(URI),
};

function timed(act) {
  const start = performance.now();
  act();
  return performance.now() - start;
}

/** Times of each in ms over rounds in which the power of a stage is edited, the floor first. */
function times(text) {
  const service = new Service();
  const floor = () =>
    validateSheet(plain(compose(parseDocument(text, { merge: true, prettyErrors: false, logLevel: 'error' }), root)));
  const rounds = Array.from({ length: ROUNDS }, (_, round) => {
    const edited = text.replace(/power: (\d+)/, (_, power) => `power: ${Number(power) + 1 + (round % 7)}`);
    const first = timed(floor);
    service.workspace.put({ uri: URI, kind: 'sheet', version: round, text: edited });
    return [first, ...Object.values(asked).map((ask) => timed(() => ask(service, text)))];
  });
  return rounds.slice(WARM);
}

function rowOf(name, text) {
  const rounds = times(text);
  const columns = rounds[0].map((_, at) => {
    const ms = median(rounds.map((round) => round[at])).toFixed(1);
    return at === 0 ? ms : `${ms} (${median(rounds.map((round) => round[at] / round[0])).toFixed(2)})`;
  });
  return [name, ...columns];
}

const sample = (name) => readFileSync(join('samples', `${name}.build.yaml`), 'utf8');
const sheets = [
  ['1,000 lines', longSheet(1000)],
  ['100 lines, five tolerances', longSheet(100, { tolerances: true })],
  ['overreach-roadster', sample('overreach-roadster')],
  ['millrace-stroker', sample('millrace-stroker')],
];

console.log('After an edit, ms, in brackets as a share of the floor: medians of rounds in which all take turns.');
console.log('Wanted: figures within 50 ms of the diagnostics. Questions and curves come after them.\n');
console.log(table([['sheet', 'floor', ...Object.keys(asked)], ...sheets.map(([name, text]) => rowOf(name, text))]));
