import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aConversation, type Counted, hold } from './conversation.ts';

describe('a server spoken to over stdio', () => {
  it('answers in the end as one that was just started', { timeout: 300_000 }, async () => {
    const counted: Counted = { steps: 0, edits: 0 };
    await fc.assert(
      fc.asyncProperty(aConversation, (conversation) => hold(conversation, counted)),
      { seed: 3, numRuns: 3 },
    );
    expect(counted.edits).toBeGreaterThan(20);
  });
});
