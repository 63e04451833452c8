import { describe, expect, it } from 'vitest';
import { atAGlance, heightOf, roomUnder } from '../../../server/src/features/glance.ts';
import { type Block, paragraph } from '../../../server/src/report/page.ts';

const table = (rows: number): Block => ({
  kind: 'table',
  head: ['figure', 'now'],
  rows: Array.from({ length: rows }, (_, row) => [`figure ${row}`, '1 psi']),
});

describe('what is seen at a glance', () => {
  it('is eight paragraphs, or a title and a table of seven rows', () => {
    const lines = Array.from({ length: 12 }, (_, line) => paragraph(`line ${line}`));
    expect(atAGlance(lines)).toHaveLength(8);
    expect(atAGlance([paragraph('a'.repeat(2000))])).toEqual([]);
    expect(atAGlance([paragraph('title'), table(20)])).toEqual([paragraph('title'), table(7)]);
  });

  it('leaves out what does not fit, and goes on with what does', () => {
    const long = paragraph('long '.repeat(200));
    expect(atAGlance([paragraph('title'), long, table(1)])).toEqual([paragraph('title'), table(1)]);
  });

  it('is less under each other place that a message names, and under letters as wide as those of code', () => {
    const finding = { rule: 'plan/part-outgrown' as const, message: 'm'.repeat(50), related: [] };
    const place = { path: [], range: { start: 0, end: 1 }, message: 'From there.' };
    const [alone, ...others] = [[], [place], [place, place]].map((related) => roomUnder([{ ...finding, related }]));
    expect(others).toEqual([(alone ?? 0) - 27, (alone ?? 0) - 54]);
    expect(roomUnder([{ ...finding, message: 'm'.repeat(51) }])).toBe(alone);
  });

  it('is less under a message, but never less than a title and a figure', () => {
    const finding = { rule: 'plan/part-outgrown' as const, message: 'm'.repeat(100), related: [] };
    expect(roomUnder([finding])).toBeLessThan(roomUnder([]));
    expect(roomUnder(Array(9).fill(finding))).toBe(heightOf(paragraph('title'), table(1)));
  });
});
