// Times a catalog of 5,000 parts in the processor's time, so that a busy machine counts less: until a sheet that uses it is
// checked, from an edit in it to what is wrong, choosing a part and all parts from it, and headroom; with ratios to the YAML parser's whole parse in the same run. Run from the project's folder: npm run bench:catalog
import { readFileSync } from 'node:fs';
import { loadavg } from 'node:os';
import { core, table } from './core.mjs';
import { longCatalog } from './long-catalog.mjs';

const { parseDocument, Service, inOneGo } = await core();
const HOUSE = 'file:///shop/build-sheet.config.yaml';
const PARTS = 'file:///shop/long.parts.yaml';
const SHEET = 'file:///shop/one.build.yaml';
const text = longCatalog(5000);
const sheet = readFileSync('samples/quarry-wagon.build.yaml', 'utf8').replace(
  /^ {2}pump: .*\n/m,
  '  pump: { use: pump-2400, placement: in-tank }\n',
);

/** Milliseconds of the processor, the collector's and the compiler's threads included. */
function time(work) {
  const begin = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(begin);
  return (user + system) / 1000;
}

const service = new Service();
const { workspace } = service;
const put = (uri, kind, version, content) => workspace.put({ uri, kind, version, text: content });
workspace.roots = ['file:///shop'];
put(HOUSE, 'house', 1, 'catalogs: ["*.parts.yaml"]\n');
put(SHEET, 'sheet', 1, sheet);
service.diagnose(SHEET);
workspace.giveFound({ folder: 'file:///shop', patterns: ['*.parts.yaml'] }, [PARTS], 0);
const [before] = [process.memoryUsage().heapUsed];

const parse = time(() => parseDocument(text));
const ready = time(() => {
  workspace.give(PARTS, { kind: 'text', text }, 0);
  service.diagnose(SHEET);
});
const whole = time(() => {
  put(PARTS, 'catalog', 1, text);
  service.diagnose(PARTS);
});
const edits = [1, 2, 3, 4, 5].map((turn) =>
  time(() => {
    put(PARTS, 'catalog', turn + 1, text.replace('current: 8 A', `current: ${8 + (turn % 2)}.5 A`));
    service.diagnose(PARTS);
    service.diagnose(SHEET);
  }),
);
const STAGES = readFileSync('samples/counter/counter-call.build.yaml', 'utf8').replace(
  /^ {2}- \{ name: in two years.*$/m,
  '  - { name: cam, power: 360 hp, induction: natural }\n  - { name: blower, power: 420 hp, induction: roots, boost: 5 psi }',
);
const OPEN = 'file:///shop/open.build.yaml';
const slot = time(() => inOneGo(service.fit(SHEET, 'pump')));
const again = time(() => inOneGo(service.fit(SHEET, 'pump')));
put(OPEN, 'sheet', 1, STAGES);
service.diagnose(OPEN);
const all = time(() => inOneGo(service.fit(OPEN)));
const headroom = time(() => inOneGo(service.headroom(SHEET)));
const headroomAgain = time(() => inOneGo(service.headroom(SHEET)));
globalThis.gc?.();
const kept = (process.memoryUsage().heapUsed - before) / 1e6;

const row = (what, ms, wanted = '') => [what, ms.toFixed(1), (ms / parse).toFixed(3), `${wanted}`];
console.log(
  `5,000 parts, ${text.split('\n').length} lines; load ${loadavg()[0].toFixed(1)}; ${kept.toFixed(0)} MB kept (wanted: under 150)`,
);
console.log(
  table([
    ['what', 'ms', 'of a whole YAML parse', 'wanted, ms'],
    row('YAML parser, whole', parse),
    row('ready: the sheet that uses it checked', ready, 300),
    row('opened: every part checked', whole),
    row('an edit in it to what is wrong, here and in the sheet (middle of 5)', edits.toSorted((a, b) => a - b)[2], 20),
    row('one slot chosen, 625 pumps', slot, 500),
    row('the same again', again, 500),
    row('every open slot of three stages, eight kinds of 625 parts', all, 3000),
    row('headroom of a sheet', headroom, 50),
    row('the same again', headroomAgain, 50),
  ]),
);
