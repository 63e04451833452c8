import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildSheet } from '../../../server/src/generated/build-sheet.ts';
import { validateSheet } from '../../../server/src/generated/validate.js';
import { differing, putBack } from '../../../server/src/sheet/differing.ts';
import { placeName } from '../../../server/src/sheet/place-name.ts';
import { readText } from '../../../server/src/sheet/read.ts';
import { root } from '../../../server/src/sheet/schema.ts';
import { randomSheet } from '../analysis/random-sheet.ts';

const same = (one: unknown, other: unknown) => JSON.stringify(one) === JSON.stringify(other);
const valuesOf = (text: string) => readText<BuildSheet>(text, root, validateSheet).values;

describe('the difference of two sheets', () => {
  it('put back gives the earlier one, whatever the two are', () => {
    fc.assert(
      fc.property(randomSheet, randomSheet, (one, other) => {
        const [before, after] = [valuesOf(one), valuesOf(other)];
        expect(putBack(after, differing(before, after, same))).toEqual(before);
        expect(differing(after, after, same)).toEqual([]);
      }),
      { numRuns: 30 },
    );
  });

  const before = {
    engine: { idle: 700, redline: 5000 },
    stages: [
      { name: 'now', power: 1 },
      { name: 'blower', changes: { engine: { idle: 800 } } },
    ],
    notes: [{ date: '2031-04-12', note: 'a' }],
    flow: [[1, 2]],
  };

  it.each([
    [{ ...before, engine: { idle: 750, redline: 5000 } }, ['engine.idle']],
    [{ ...before, engine: { idle: 700 } }, ['engine.redline']],
    [{ ...before, flow: [[1, 3]] }, ['flow']],
    [
      { ...before, stages: [before.stages[0], { name: 'blower', changes: { engine: { idle: 900 } } }] },
      ['engine.idle in stage "blower"'],
    ],
    [{ ...before, stages: [{ name: 'first', power: 1 }, before.stages[1]] }, ['name of stage "first"']],
    [{ ...before, stages: [{ name: 'new' }, ...before.stages] }, ['stage "new"']],
    [{ ...before, stages: before.stages.toReversed() }, ['stages']],
    [{ ...before, stages: [before.stages[1], { name: 'now', power: 2 }] }, ['power of stage "now"', 'stages']],
    [{ ...before, notes: [{ date: '2031-04-10', note: 'b' }, ...before.notes] }, ['note "2031-04-10"']],
    [{ ...before, notes: [{ date: '2031-04-12', note: 'b' }] }, ['note of note "2031-04-12"']],
  ])('names what differs: %#', (after, names) => {
    const found = differing(before, after, same);
    expect(found.map(({ place }) => placeName(place, after))).toEqual(names);
    expect(putBack(after, found)).toEqual(before);
  });

  it('is found with items of a list by their id, wherever they stand', () => {
    const [one, two, three] = [
      { id: 'p1', flow: 1 },
      { id: 'p2', flow: 2 },
      { id: 'p3', flow: 3 },
    ];
    const after = { parts: [one, { id: 'p3', flow: 4 }] };
    const found = differing({ parts: [one, two, three] }, after, same);
    expect(found.map(({ kind, place }) => `${kind} ${placeName(place, after)}`)).toEqual([
      'field flow of part "p3"',
      'item part "p3"',
    ]);
    expect(putBack(after, found)).toEqual({ parts: [one, two, three] });
  });
});
