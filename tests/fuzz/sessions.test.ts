import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aSession, live, type Tally } from './session.ts';

describe('any sheet, edit by edit', () => {
  it('is answered as promised', { timeout: 300_000 }, () => {
    const tally: Tally = { edits: 0, compared: 0, withActions: 0, slowest: 0 };
    fc.assert(
      fc.property(aSession, (session) => live(session, tally)),
      { seed: 7, numRuns: 15 },
    );
    expect(tally.edits).toBeGreaterThan(200);
    expect(tally.compared).toBeGreaterThan(40);
    expect(tally.withActions).toBeGreaterThan(0);
  });
});
