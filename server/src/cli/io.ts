import type { Dialog } from './dialog.ts';

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
  /** All of the standard input. */
  readInput: () => Promise<Uint8Array>;
  /** A talk with whoever is there, line by line. */
  dialog: () => Dialog;
  /** Whether the output is shown in colors. */
  hasColor: boolean;
  /** How many columns the output has; undefined, where it is not shown on a terminal. */
  columns: number | undefined;
  /** Whether someone sits at the terminal who can be asked and shown how far work has come. */
  isAttended: boolean;
  /** Resolves once the user wants to stop, as by Ctrl-C; until it is asked for, that ends the program at once. */
  stopped: () => Promise<void>;
};
