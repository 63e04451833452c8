/**
 * Fuzzing as long as wanted: `npm run fuzz -- --edits 100000 --seed 1`. Sessions run in batches, each with a seed of its
 * own counted up from the given one; the last line tells the seed to go on with. Exits with 1 at the first failure, shrunk.
 * With `--over stdio` the built server is spoken to instead, and its house rules change under it.
 */
import { parseArgs } from 'node:util';
import fc from 'fast-check';
import { aConversation, type Conversation, type Counted, hold } from './conversation.ts';
import { aSession, live, type Session, type Tally, versions } from './session.ts';

const SESSIONS_A_BATCH = 50;
const CONVERSATIONS_A_BATCH = 10;

/** Milliseconds that one conversation over stdio may take on any machine. */
const LONGEST_CONVERSATION = 600_000;

/** Milliseconds for a batch, after which a failure is shrunk no further. */
const LONGEST_BATCH = 1_800_000;

const { values } = parseArgs({
  options: {
    edits: { type: 'string', default: '10000' },
    seed: { type: 'string', default: '1' },
    over: { type: 'string', default: 'process' },
  },
});
const wanted = Number(values.edits);
let seed = Number(values.seed);
if (!(wanted > 0) || !Number.isSafeInteger(seed)) throw new Error('--edits and --seed take whole numbers');

const start = performance.now();
let isFailing = false;
if (values.over === 'stdio') await conversations();
else sessions();

function sessions(): void {
  const tally: Tally = { edits: 0, compared: 0, withActions: 0, slowest: 0 };
  const told = () =>
    `${tally.edits} edits, ${tally.compared} compared with fresh, ${tally.withActions} with all actions, slowest ${Math.round(tally.slowest)} ms`;
  while (tally.edits < wanted) {
    const result = fc.check(
      fc.property(aSession, (session) => {
        try {
          live(session, tally);
        } catch (error) {
          tellFirst(error, versions(session));
          throw error;
        }
      }),
      { seed, numRuns: SESSIONS_A_BATCH, interruptAfterTimeLimit: LONGEST_BATCH },
    );
    if (result.failed) fail(result.errorInstance, result.counterexample?.[0], told());
    tell(told());
  }
}

async function conversations(): Promise<void> {
  const counted: Counted = { steps: 0, edits: 0 };
  while (counted.edits < wanted) {
    const result = await fc.check(
      fc.asyncProperty(aConversation, async (conversation) => {
        try {
          await hold(conversation, counted);
        } catch (error) {
          tellFirst(error, conversation);
          throw error;
        }
      }),
      { seed, numRuns: CONVERSATIONS_A_BATCH, timeout: LONGEST_CONVERSATION, interruptAfterTimeLimit: LONGEST_BATCH },
    );
    const told = `${counted.edits} edits, ${counted.steps} steps over stdio`;
    if (result.failed) fail(result.errorInstance, result.counterexample?.[0], told);
    tell(told);
  }
}

/** Shrinking takes its time: what failed first is told at once. */
function tellFirst(error: unknown, found: readonly string[] | Conversation): void {
  if (!isFailing) console.log(`Fails in seed ${seed}: ${error}\n${JSON.stringify(found)}`);
  isFailing = true;
}

function tell(told: string): void {
  seed++;
  console.log(`${told}, ${Math.round((performance.now() - start) / 1000)} s, next seed ${seed}`);
}

function fail(error: unknown, found: Session | Conversation | undefined, told: string): never {
  console.log(`FAILED in seed ${seed}: ${error instanceof Error ? error.stack : error}`);
  if (found) console.log(`\n${JSON.stringify('edits' in found ? found.edits : found)}`);
  if (found && 'edits' in found) console.log(versions(found).slice(-2).join('\n----- after the last edit -----\n'));
  console.log(told);
  process.exit(1);
}
