import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildSheet } from '../../../server/src/generated/build-sheet.ts';
import { validateSheet } from '../../../server/src/generated/validate.js';
import type { Entry } from '../../../server/src/sheet/entry.ts';
import type { Sheet } from '../../../server/src/sheet/read.ts';
import { Reader } from '../../../server/src/sheet/reader.ts';
import { root } from '../../../server/src/sheet/schema.ts';
import { longSheet } from '../../bench/long-sheet.mjs';
import { anEdit, edited } from '../../fuzz/edit.ts';
import { sources } from '../../fuzz/sources.ts';
import { read } from './marked.ts';

const reader = () => new Reader<BuildSheet>(root, validateSheet);

/** A sheet as it is told, without what is remembered of it. */
function told({ root: entry, ...rest }: Sheet) {
  return { ...rest, root: bare(entry) };
}

function bare({ path, key, value, schema, kind, flow, inherited, anchored, scalar, quote, children }: Entry): unknown {
  return { path, key, value, schema, kind, flow, inherited, anchored, scalar, quote, children: children.map(bare) };
}

const texts = [...sources(), longSheet(120)];

describe('a text read again', () => {
  it('is as if read for the first time, whatever was edited', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(fc.constantFrom(...texts), fc.array(anEdit, { minLength: 1, maxLength: 6 }), (source, edits) => {
        const again = reader();
        let text = source;
        expect(told(again.read(text))).toEqual(told(read(text)));
        for (const edit of edits) {
          text = edited(text, edit);
          expect(told(again.read(text))).toEqual(told(read(text)));
        }
      }),
      { numRuns: 150 },
    );
  });

  it('is as if read for the first time when an edit is taken back', { timeout: 120_000 }, () => {
    fc.assert(
      fc.property(fc.constantFrom(...texts), fc.array(anEdit, { minLength: 1, maxLength: 4 }), (source, edits) => {
        const again = reader();
        again.read(source);
        for (const edit of edits) {
          again.read(edited(source, edit));
          expect(told(again.read(source))).toEqual(told(read(source)));
        }
      }),
      { numRuns: 60 },
    );
  });
});

const sheet = `format: 1
engine:
  cylinders: 8
  idle: 750 rpm
  intake: { pads: 1 }
stages:
  - { name: one, power: 250 hp }
  - { name: two, power: 300 hp }
  - { name: two, power: 300 hp }
fuel-system: { pump: { flow-at: [[40 psi, 330 L/h], [60 psi, 290 L/h]], current: 12 A } }
`;

describe('what an edit does not touch', () => {
  /** The values before and after one text of the sheet is replaced. */
  function values(from: string, to: string, start = sheet) {
    const again = reader();
    const before = again.read(start).values;
    return { before, after: again.read(start.replace(from, to)).values };
  }

  it('keeps its values as the same objects', () => {
    const { before, after } = values('750 rpm', '1750 rpm');
    expect(after.engine?.idle?.value).not.toBe(before.engine?.idle?.value);
    expect(after.stages).toBe(before.stages);
    expect(after['fuel-system']).toBe(before['fuel-system']);
    expect(after.engine?.intake).toBe(before.engine?.intake);
  });

  it('keeps them beside an item that changes, comes or goes', () => {
    const changed = values('power: 300', 'power: 310');
    expect(changed.after.stages?.map((stage) => changed.before.stages?.indexOf(stage))).toEqual([0, -1, 2]);
    const added = values('stages:\n', 'stages:\n  - { name: zero }\n');
    expect(added.after.stages?.map((stage) => added.before.stages?.indexOf(stage))).toEqual([-1, 0, 1, 2]);
    const removed = values('  - { name: one, power: 250 hp }\n', '');
    expect(removed.after.stages?.map((stage) => removed.before.stages?.indexOf(stage))).toEqual([1, 2]);
  });

  it('keeps them while the text is broken, and after', () => {
    const again = reader();
    const before = again.read(sheet).values;
    const broken = again.read(sheet.replace('  cylinders: 8', '  cylinders: 8\n  idl'));
    expect(broken.broken).toBe(true);
    expect(broken.values.stages).toBe(before.stages);
    expect(broken.values.engine).toBe(before.engine);
    expect(again.read(sheet).values['fuel-system']).toBe(before['fuel-system']);
  });

  it('keeps them where the whole text is read for an alias', () => {
    const text = sheet.replace('fuel-system: {', 'x-own: &own 1\nx-same: *own\nfuel-system: {');
    const { before, after } = values('750 rpm', '760 rpm', text);
    expect(after['fuel-system']).toBe(before['fuel-system']);
    expect(after.stages).toBe(before.stages);
  });

  it('keeps what is the same within a value that breaks the schema elsewhere', () => {
    const { before, after } = values('750 rpm', '750 rpm\n  idel: 3');
    expect(after.engine?.idle).toBe(before.engine?.idle);
  });

  it('never gives one object to two places', () => {
    const objects = new Set<object>();
    const each = (value: unknown): void => {
      if (typeof value !== 'object' || value === null) return;
      expect(objects.has(value)).toBe(false);
      objects.add(value);
      Object.values(value).forEach(each);
    };
    const again = reader();
    again.read(sheet);
    each(again.read(sheet.replace('stages:', 'stages:\n  - { name: two, power: 300 hp }')).values);
  });
});

describe('a text that is only tried', () => {
  it('is read by what is known and changes nothing of it', () => {
    const again = reader();
    const before = again.read(sheet);
    const tried = again.fork().read(sheet.replace('250 hp', '260 hp'));
    expect(told(tried)).toEqual(told(read(sheet.replace('250 hp', '260 hp'))));
    expect(tried.values.engine).toBe(before.values.engine);
    expect(again.read(`${sheet}\n`).values.stages).toBe(before.values.stages);
  });
});
