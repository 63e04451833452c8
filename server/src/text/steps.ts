/**
 * Work in steps. Whoever runs it may do something else between two of them, or give up; what it tells the work there is
 * whether time is up, so that the rest is left undone.
 */
export type Steps<Result> = Generator<void, Result, boolean>;

/** The result of all steps at once. */
export function inOneGo<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const step = steps.next(false);
    if (step.done) return step.value;
  }
}
