/**
 * Fuzzing as long as wanted: `npm run fuzz -- --edits 100000 --seed 1`. Sessions run in batches, each with a seed of its
 * own counted up from the given one; the last line tells the seed to go on with. Exits with 1 at the first failure, shrunk.
 */
import { parseArgs } from 'node:util';
import fc from 'fast-check';
import { aSession, live, type Session, type Tally, versions } from './session.ts';

const SESSIONS_A_BATCH = 50;

const { values } = parseArgs({
  options: { edits: { type: 'string', default: '10000' }, seed: { type: 'string', default: '1' } },
});
const wanted = Number(values.edits);
let seed = Number(values.seed);
if (!(wanted > 0) || !Number.isSafeInteger(seed)) throw new Error('--edits and --seed take whole numbers');

const tally: Tally = { edits: 0, withActions: 0, slowest: 0 };
const start = performance.now();
while (tally.edits < wanted) {
  const result = fc.check(
    fc.property(aSession, (session) => live(session, tally)),
    { seed, numRuns: SESSIONS_A_BATCH },
  );
  if (result.failed) {
    report(result.counterexample?.[0], result.errorInstance);
    process.exit(1);
  }
  seed++;
  console.log(told());
}

function told(): string {
  const seconds = Math.round((performance.now() - start) / 1000);
  const slowest = Math.round(tally.slowest);
  return `${tally.edits} edits, ${tally.withActions} with all actions, ${seconds} s, slowest ${slowest} ms, next seed ${seed}`;
}

function report(session: Session | undefined, error: unknown): void {
  console.log(`FAILED in seed ${seed}: ${error instanceof Error ? error.stack : error}`);
  if (!session) return;
  console.log(`\nedits: ${JSON.stringify(session.edits)}`);
  console.log(versions(session).slice(-2).join('\n----- after the last edit -----\n'));
  console.log(told());
}
