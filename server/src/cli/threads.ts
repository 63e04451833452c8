import { setImmediate } from 'node:timers/promises';
import type { Worker } from 'node:worker_threads';
import type { KeyedResult } from './check-files.ts';

/** Takes the checks that several threads make, and makes its own. */
export type Work = {
  take: (file: string, found: KeyedResult) => void;
  own: (file: string) => Promise<KeyedResult>;
};

/** Threads that check files together with the one that asks. */
export type Crew = { check: (files: readonly string[], work: Work) => Promise<void> };

/** What a thread is told at its start: the folders from which house rules hold, and whether repairs are tried. */
export type Orders = { roots: readonly string[]; repairs: boolean };

/** Files that a thread is given at once, and how few it has left when it is given more, so that it never waits. */
const BATCH = 16;
const FEW = 8;
/** Files that the asking thread takes before it looks at what the others have. */
const OWN = 4;

/** A crew of so many threads, started when there is work; what a thread that dies leaves is done by the one that asks. */
export function crewOf(count: number, start: (orders: Orders) => Worker, orders: Orders): Crew {
  return {
    check: async (files, { take, own }) => {
      const queue = [...files];
      const threads = Array.from({ length: Math.min(count, Math.ceil(files.length / BATCH)) }, () =>
        served(start(orders), queue, take),
      );
      const ownWork = async () => {
        while (queue.length > 0) {
          for (const file of queue.splice(0, OWN)) take(file, await own(file));
          await setImmediate();
        }
      };
      await ownWork();
      await Promise.all(threads);
      await ownWork();
    },
  };
}

/** Gives a thread one batch after the other until there are no more; what it did not do goes back into the queue. */
function served(thread: Worker, queue: string[], take: Work['take']): Promise<void> {
  return new Promise((resolve) => {
    const waiting = new Set<string>();
    const next = () => {
      const batch = queue.splice(0, BATCH);
      if (batch.length === 0) return waiting.size === 0 ? end() : undefined;
      for (const file of batch) waiting.add(file);
      thread.postMessage(batch);
    };
    const end = () => {
      queue.push(...waiting);
      waiting.clear();
      thread.removeAllListeners();
      thread.on('error', () => undefined);
      void thread.terminate().then(() => resolve());
    };
    thread.on('message', ([file, found]: [string, KeyedResult]) => {
      waiting.delete(file);
      take(file, found);
      if (waiting.size <= FEW) next();
    });
    thread.on('error', end);
    thread.on('exit', end);
    next();
  });
}
