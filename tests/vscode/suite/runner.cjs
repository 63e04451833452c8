// Runs stories and leaves a record of them: one line of JSON a story, and a last line that says the run came to its end.
// A process that dies half-way leaves no last line.
const { appendFileSync, writeFileSync } = require('node:fs');

const record = process.env.STORY_RECORD;
const write = (entry) => appendFileSync(record, `${JSON.stringify(entry)}\n`);

/** Reports something that does not fail a story but must not stay unseen, such as a second try. */
exports.note = (text) => write({ note: text });

/**
 * Runs the stories in order, each after `prepare`, and rejects when one fails. `stories` maps a sentence to an async
 * function.
 */
exports.runStories = async (prepare, stories) => {
  writeFileSync(record, '');
  let failed = 0;
  for (const [story, tell] of Object.entries(stories)) {
    const start = Date.now();
    try {
      await prepare();
      await tell();
      write({ story, ms: Date.now() - start });
    } catch (error) {
      failed += 1;
      write({ story, ms: Date.now() - start, error: error.stack ?? String(error) });
    }
  }
  write({ end: true });
  if (failed > 0) throw new Error(`${failed} stories failed`);
};
