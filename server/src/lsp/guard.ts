import { ResponseError } from 'vscode-languageserver';

/**
 * A handler whose faults end here: what it throws is given to `onFault`, which says what to answer instead. A refusal that
 * is meant for the client goes through.
 */
export function guarded<Args extends unknown[], Result>(
  handle: (...args: Args) => Result | Promise<Result>,
  onFault: (error: unknown, ...args: Args) => Result,
): (...args: Args) => Promise<Result> {
  return async (...args) => {
    try {
      return await handle(...args);
    } catch (error) {
      if (error instanceof ResponseError) throw error;
      return onFault(error, ...args);
    }
  };
}
