import { describe, expect, it } from 'vitest';
import { widthOf } from '../../server/src/cli/wrap.ts';

describe('the columns a text takes', () => {
  it.each([
    ['', 0],
    ['4 psi', 5],
    ['e\u0301 µ ° ²', 7],
    ['\u6f22\u5b57', 4],
    ['\ud55c', 2],
    ['\u200b\u0007', 0],
    ['\u{1f44d}\u{1f3fd}', 2],
    ['\u2764\ufe0f', 2],
    ['\u{1f468}\u200d\u{1f469}\u200d\u{1f467}', 2],
    ['\ud800', 0],
  ])('are those a terminal gives it: %j takes %i', (text, columns) => {
    expect(widthOf(text)).toBe(columns);
  });
});
