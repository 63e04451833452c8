import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Cut, cutAgain, cutText } from '../../../server/src/sheet/cuts.ts';
import { anEdit, edited } from '../../fuzz/edit.ts';

const TEXT = `# head
format: 1
parts:
  # the first
  - id: a
    pump: { current: 8 A }
  - { id: b }
  -   id: c
      name: more

  - id: a
    pump: { current: 8 A }
kits:
- id: k
  brings: { pump: a }
- { id: l, kits: [k] }
notes: x
`;

const shown = (cuts: readonly Cut[] | undefined) =>
  cuts?.map(({ kind, name, start, end }) => `${kind} ${name} ${start} ${end}`);

describe('cutting another version of a text', () => {
  it('gives what cutting it anew gives, and the same only to what has the same text', () => {
    fc.assert(
      fc.property(fc.array(anEdit, { minLength: 1, maxLength: 6 }), (edits) => {
        let before = { text: TEXT, cuts: cutText(TEXT) ?? [] };
        for (const edit of edits) {
          const text = edited(before.text, edit);
          const cuts = cutAgain(text, before);
          expect(shown(cuts)).toEqual(shown(cutText(text)));
          const known = new Map(before.cuts.map((cut) => [cut.stretch, before.text.slice(cut.start, cut.end)]));
          for (const { stretch, start, end } of cuts ?? [])
            if (known.has(stretch)) expect(text.slice(start, end)).toBe(known.get(stretch));
          if (!cuts) return;
          before = { text, cuts };
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('keeps what stands before and behind an edit', () => {
    const cuts = cutText(TEXT) ?? [];
    const again = cutAgain(TEXT.replace('{ id: b }', '{ id: bee }'), { text: TEXT, cuts }) ?? [];
    const kept = again.filter(({ stretch }) => cuts.some((cut) => cut.stretch === stretch));
    expect(again.length - kept.length).toBeLessThanOrEqual(3);
    expect(kept.length).toBeGreaterThan(6);
  });
});
