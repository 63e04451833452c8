import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, it } from 'vitest';
import { type Checked, checkText } from '../../../server/src/checking/checked.ts';
import { completionsAt } from '../../../server/src/features/completion.ts';
import { sheetDiagnoses } from '../../../server/src/features/diagnostics.ts';
import { foldsOf } from '../../../server/src/features/folding.ts';
import { hoverAt, nothingKnown } from '../../../server/src/features/hover.ts';
import { linksOf } from '../../../server/src/features/links.ts';
import { repairsAt } from '../../../server/src/features/repairs.ts';
import { outlineOf } from '../../../server/src/features/symbols.ts';
import type { Entry, Range } from '../../../server/src/sheet/entry.ts';
import { noHouse } from '../../../server/src/sheet/house.ts';
import { root } from '../../../server/src/sheet/schema.ts';
import { inOneGo } from '../../../server/src/text/steps.ts';
import { readHouse } from '../../../server/src/workspace/house-file.ts';
import { read } from './marked.ts';

const SAMPLES = 'samples';
const samples = readdirSync(SAMPLES)
  .filter((name) => name.endsWith('.build.yaml'))
  .map((name) => readFileSync(`${SAMPLES}/${name}`, 'utf8'));

const URI = 'file:///a.build.yaml';

/** Asks everything an editor would ask of a text, with the cursor at an offset. */
function ask(text: string, offset: number): Checked {
  const checked = checkText(text, noHouse);
  const { sheet, plan } = checked;
  const hover = hoverAt(sheet.root, offset, { ...nothingKnown, plan });
  if (hover) inside(text, hover.range);
  const { replace } = completionsAt(text, offset, root);
  inside(text, replace);
  must(replace.start <= offset && offset <= replace.end, 'a completion away from the cursor');
  must(!/[\r\n]/.test(text.slice(replace.start, replace.end)), 'a completion over several lines');
  outlineOf(text, sheet.root);
  foldsOf(text, sheet.root);
  linksOf(sheet.root);
  for (const { range, related } of sheetDiagnoses(URI, checked)) {
    for (const one of [range, ...related.map(({ place }) => place.range)]) {
      inside(text, one);
      must(one.start < one.end || text === '', 'an empty range');
    }
  }
  for (const { range, fixes, message } of sheet.problems) {
    inside(text, range);
    must(range.end > range.start || text === '', 'an empty range');
    must(message.length < 1500, 'a message of many lines');
    for (const word of ['null', 'undefined', 'NaN', '[object Object]', 'Infinity']) {
      must(!message.includes(word) || text.includes(word), `${word} in ${message}`);
    }
    must(text.trim() === '' || !text.slice(range.start, range.end).includes('\n'), 'a problem over several lines');
    must(text.includes('`') || !`${message} ${fixes.map(({ title }) => title)}`.includes('`'), `markup in ${message}`);
    for (const { edits } of fixes) for (const edit of edits) inside(text, edit);
  }
  for (const { range, related } of checked.findings) {
    inside(text, range);
    for (const other of related) inside(text, other.range);
  }
  for (const { figures } of plan) {
    for (const { id, value, low, high } of figures.values()) {
      must([value, low ?? 0, high ?? 0].every(Number.isFinite), `${id} is no number`);
      must((low ?? value) <= value && value <= (high ?? value), `${id} is outside its bounds`);
    }
  }
  entries(text, sheet.root);
  return checked;
}

function entries(text: string, entry: Entry): void {
  inside(text, entry.value);
  if (entry.key) inside(text, entry.key);
  for (const child of entry.children) entries(text, child);
}

function must(holds: boolean, otherwise: string): void {
  if (!holds) throw new Error(otherwise);
}

function inside(text: string, { start, end }: Range): void {
  must(0 <= start && start <= end && end <= text.length, `${start} to ${end} is not inside ${text.length}`);
}

const piece = fc.oneof(
  fc.constantFrom(
    ...[
      '{',
      '}',
      '[',
      ']',
      ':',
      ': ',
      ',',
      '\n',
      '\r\n',
      '- ',
      '  ',
      '\r',
      '\t',
      '#',
      ' #',
      '"',
      "'",
      '|',
      '>',
      '&a ',
      '*a',
    ],
    ...['<<: *a', '? ', '!!int ', '~', '---', '%YAML', '\ufeff', '😀', '0', '-1', '1e999', '5 +/- 9 %', '..', 'NaN'],
    ...['format: 1\n', 'engine:', 'stages:\n  - ', 'power: 5 hp', 'boost: 400 psi', 'changes: ', 'induction: roots'],
  ),
  fc.string({ maxLength: 6 }),
);

/** A sample with one to four stretches of it taken out, doubled or replaced. */
const mutated = fc
  .tuple(
    fc.constantFrom(...samples),
    fc.array(
      fc.record({
        at: fc.double({ min: 0, max: 1, noNaN: true }),
        size: fc.nat(40),
        with: fc.oneof(piece, fc.constant(undefined)),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  )
  .map(([sample, changes]) =>
    changes.reduce((text, change) => {
      const at = Math.floor(change.at * text.length);
      const middle = change.with ?? text.slice(at, at + change.size).repeat(2);
      return text.slice(0, at) + middle + text.slice(at + change.size);
    }, sample),
  );

const place = fc.double({ min: 0, max: 1, noNaN: true });

describe('any text', () => {
  it('made of pieces of YAML is answered', () => {
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 25 }), place, (pieces, at) => {
        const text = pieces.join('');
        ask(text, Math.floor(at * text.length));
      }),
      { numRuns: 500 },
    );
  });

  it('of any characters is answered', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), place, (text, at) => {
        ask(text, Math.floor(at * text.length));
      }),
      { numRuns: 200 },
    );
  });

  it('of house rules is read, and sheets are checked by what is read', () => {
    const words = fc.constantFrom(
      ...['limits: ', 'rules: ', 'units: si', 'fuel: ', 'ignition/contact-points: ', 'severity: ', '"off"', 'hint'],
      ...['reason: dry', 'largest-duty: 85 %', 'surplus: 2', '{ ', ' }', '\n', '\n  ', ': ', ', ', '~', '5', '[', '- '],
    );
    fc.assert(
      fc.property(fc.array(fc.oneof(words, piece), { maxLength: 16 }), (pieces) => {
        const text = pieces.join('');
        const { problems, values, root: entry } = readHouse(text, new Set());
        for (const { range } of problems) inside(text, range);
        entries(text, entry);
        checkText(samples[0] ?? '', values);
      }),
      { numRuns: 150 },
    );
  });

  it('made from a sample by a slip is answered', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(mutated, place, (text, at) => {
        ask(text, Math.floor(at * text.length));
      }),
      { numRuns: 120 },
    );
  });

  it('made from a sample gets only repairs that are inside it', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(mutated, place, (text, at) => {
        const checked = checkText(text, noHouse);
        const offset = Math.floor(at * text.length);
        const range = { start: offset, end: Math.min(text.length, offset + 40) };
        for (const { edits = [] } of inOneGo(repairsAt(URI, checked, range, read)))
          for (const edit of edits) inside(text, edit);
      }),
      { numRuns: 20 },
    );
  });
});

describe('every sample', () => {
  it.each(samples)('is answered at every fifth offset %#', { timeout: 120_000 }, (text) => {
    const { sheet, plan } = ask(text, 0);
    for (let offset = 0; offset <= text.length; offset += 5) {
      const hover = hoverAt(sheet.root, offset, { ...nothingKnown, plan, units: 'si' });
      if (hover) inside(text, hover.range);
    }
    for (let offset = 0; offset <= text.length; offset += 35) {
      inside(text, completionsAt(text, offset, root).replace);
    }
  });
});
