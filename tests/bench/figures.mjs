// Times what stands on a sheet that is read: all figures, the whole check, the repairs at one position; and how many times
// the floor of parsing and validation each is in the same run. From the project's folder: npm run bench:figures
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { core, median, rounds, table } from './core.mjs';
import { longSheet } from './long-sheet.mjs';

const {
  analyze,
  checkSheet,
  compose,
  figures,
  noHouse,
  parseDocument,
  plain,
  readText,
  repairsAt,
  root,
  validateSheet,
} = await core();

const read = (text) => readText(text, root, validateSheet);
const ms = (value) => value.toFixed(value < 10 ? 2 : 1);

/** All figures of all stages, with their bounds. */
function estimates({ values, unread }) {
  return analyze(values, noHouse, [], unread).flatMap((stage) =>
    figures.map((node) => {
      const estimate = stage.estimate(node);
      return estimate && (estimate.low ?? estimate.value);
    }),
  );
}

/** The same with the work that explains them. */
function explained({ values, unread }) {
  return analyze(values, noHouse, [], unread).map((stage) => stage.figures.size);
}

/** The position at which listing repairs takes longest: its time, and how many repairs are tried there. */
function slowestPosition(checked) {
  const positions = [...new Map(checked.findings.map((finding) => [finding.range.start, finding.range])).values()];
  const times = positions.map((range) => {
    const list = () => {
      const steps = repairsAt('file:///sheet', checked, range, read);
      while (!steps.next().done);
    };
    return { time: median(rounds([list], 5).flat()), range };
  });
  const [slowest] = times.toSorted((one, other) => other.time - one.time);
  if (!slowest) return ['-', '-'];
  const tried = checked.findings.filter(({ range }) => range.start === slowest.range.start);
  return [ms(slowest.time), tried.reduce((sum, { repairs }) => sum + repairs.length, 0)];
}

function row(name, text) {
  const parse = () => parseDocument(text, { merge: true, prettyErrors: false, logLevel: 'error' });
  const value = plain(compose(parse(), root));
  const sheet = read(text);
  if (sheet.problems.some(({ severity }) => severity !== 'warning'))
    console.error(`${name}: ${sheet.problems[0].message}`);
  const calls = [
    () => {
      parse();
      validateSheet(value);
    },
    () => estimates(sheet),
    () => explained(sheet),
    () => checkSheet(sheet, noHouse),
  ];
  const times = rounds(calls, 101);
  const of = (measure) => median(times.map(measure));
  const checked = checkSheet(sheet, noHouse);
  return [
    name,
    checked.plan.length,
    ms(of(([floor]) => floor)),
    ms(of(([, all]) => all)),
    of(([floor, all]) => all / floor).toFixed(2),
    ms(of(([, , work]) => work)),
    ms(of(([, , , check]) => check)),
    of(([floor, , , check]) => check / floor).toFixed(2),
    ...slowestPosition(checked),
  ];
}

const samples = readdirSync('samples').filter((name) => name.endsWith('.build.yaml'));
const sheets = [
  ['three stages', longSheet(100)],
  ['with five tolerances', longSheet(100, { tolerances: true })],
  ['24 stages, tolerances', longSheet(120, { tolerances: true, stages: 24 })],
  ...samples.map((name) => [basename(name, '.build.yaml'), readFileSync(join('samples', name), 'utf8')]),
];

console.log('What stands on a sheet that is read, ms: medians of rounds in which all take turns, and of their ratios.');
console.log(
  'Wanted: figures of three stages 0.5, with tolerances 3; a check 1; repairs at a position 10, on 24 stages 50.\n',
);
console.log(
  table([
    ['sheet', 'stages', 'floor', 'figures', '/ floor', 'explained', 'check', '/ floor', 'repairs at worst', 'tried'],
    ...sheets.map(([name, text]) => row(name, text)),
  ]),
);
