// Times reading: the whole text, again by chunks after one edit, and from an edit to what is wrong, as ratios to the YAML
// parser's whole parse in the same run. Run from the project's folder: npm run bench:read
import { availableParallelism, loadavg } from 'node:os';
import { core, inTurns, median, table } from './core.mjs';
import { longSheet } from './long-sheet.mjs';

const { parseDocument, readText, Reader, root, Service, validateSheet } = await core();
const URI = 'file:///shop/long.build.yaml';

/** The same text with another idle speed, and back: an edit in a section above everything that is long. */
function inSection(text) {
  return [text.replace('idle: 750 rpm', 'idle: 1750 rpm'), text];
}

/** The same text with another word in the note in the middle, and back. */
function inItem(text) {
  const at = text.indexOf('note: "', text.length >> 1);
  return [`${text.slice(0, at)}note: "as said: ${text.slice(at + 7)}`, text];
}

/** The same text with a field half typed, and half typed otherwise. */
function halfTyped(text) {
  return ['co', 'coo'].map((typed) => text.replace('  idle: 750 rpm', `  ${typed}\n  idle: 750 rpm`));
}

function inReader(texts) {
  const reader = new Reader(root, validateSheet);
  let turn = 0;
  return () => reader.read(texts[turn++ % 2]);
}

function inService(texts) {
  const service = new Service();
  let version = 0;
  return () => {
    service.workspace.put({ uri: URI, kind: 'sheet', version, text: texts[version++ % 2] });
    return service.diagnose(URI);
  };
}

function row(lines) {
  const text = longSheet(lines);
  const calls = {
    parse: () => parseDocument(text, { merge: true, prettyErrors: false, logLevel: 'error' }),
    'full read': () => readText(text, root, validateSheet),
    'read: section': inReader(inSection(text)),
    'read: item': inReader(inItem(text)),
    'read: half typed': inReader(halfTyped(text)),
    'wrong: section': inService(inSection(text)),
    'wrong: item': inService(inItem(text)),
    'wrong: half typed': inService(halfTyped(text)),
  };
  const times = inTurns(Object.values(calls)).map(median);
  const shown = times.map((time, index) =>
    index === 0 ? time.toFixed(2) : `${time.toFixed(2)} (${(time / times[0]).toFixed(3)})`,
  );
  return { head: ['lines', ...Object.keys(calls)], cells: [lines, ...shown] };
}

const rows = [100, 1000, 10_000].map(row);
console.log(`${availableParallelism()} cores, load ${loadavg()[0].toFixed(1)}, Node ${process.versions.node}.`);
console.log('Milliseconds, and in brackets the ratio to the whole parse of the same text in the same run.');
console.log('read: the sheet again after an edit; wrong: from the edit to everything that is wrong.\n');
console.log(table([rows[0].head, ...rows.map(({ cells }) => cells)]));
