import type { Steps } from '../text/steps.ts';

/** How long work goes on before the server looks at what else has come in, in ms. */
const SLICE = 8;

/**
 * Does work step by step, with a look at other messages now and then, and tells it when time is up. `mayGoOn` throws where
 * nobody waits for the result any more.
 */
export async function done<Result>(steps: Steps<Result>, patience: number, mayGoOn: () => void): Promise<Result> {
  const start = performance.now();
  let pause = start + SLICE;
  for (let now = start; ; ) {
    const step = steps.next(now - start > patience);
    if (step.done) return step.value;
    now = performance.now();
    if (now < pause) continue;
    await new Promise((go) => setTimeout(go, 0));
    mayGoOn();
    pause = performance.now() + SLICE;
  }
}
