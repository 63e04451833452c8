import type { Worker } from 'node:worker_threads';
import type { Dialog } from './dialog.ts';
import type { Keeping } from './kept-checks.ts';
import type { Orders } from './threads.ts';

/** The world around a run of the program, so that a test can be another one. */
export type Io = {
  /** The working folder, absolute. */
  cwd: string;
  /** How this program is started: the words of a command line before its verb. */
  program: readonly string[];
  /** Writes to the standard output. */
  write: (text: string) => void;
  /** Tells something beside the answer, on the standard error. */
  complain: (text: string) => void;
  /** Writes to the standard error as it is, for what a terminal shows for a while. */
  show: (text: string) => void;
  /** Where checks of earlier runs are kept, if they are. */
  keeping: Keeping | undefined;
  /** Starts a thread of this program, and how many may run beside it. */
  threads: { count: number; start: (orders: Orders) => Worker } | undefined;
  /** All of the standard input. */
  readInput: () => Promise<Uint8Array>;
  /** A talk with whoever is there, line by line. */
  dialog: () => Promise<Dialog>;
  /** Whether the output is shown in colors. */
  hasColor: boolean;
  /** How many columns the output has; undefined, where it is not shown on a terminal. */
  columns: number | undefined;
  /** Whether someone sits at the terminal who can be asked and shown how far work has come. */
  isAttended: boolean;
  /** Resolves once the user wants to stop, as by Ctrl-C; until it is asked for, that ends the program at once. */
  stopped: () => Promise<void>;
};
