import { describe, expect, it } from 'vitest';
import { lineClasses } from '../../../server/src/engineering/hoses.ts';

describe('classes of fuel line', () => {
  it('stand less than the best of them are printed with', () => {
    for (const { name, workingPressure, printedUpTo } of lineClasses)
      expect(printedUpTo ?? Number.POSITIVE_INFINITY, name).toBeGreaterThan(workingPressure);
  });

  it('each say where their values come from', () => {
    for (const line of lineClasses) expect(line.source).not.toBe('');
    expect(new Set(lineClasses.map((line) => line.name)).size).toBe(lineClasses.length);
  });
});
