import type { Io } from './io.ts';

/** What a run of the program comes to, as its exit code. */
export const ExitCode = {
  /** Nothing found at or above the bar. */
  clean: 0,
  /** Something found at or above the bar. */
  found: 1,
  /** Asked in a way that cannot be answered whole: wrong options, files that cannot be read, house rules that do not hold. */
  misuse: 2,
  /** A fault of our own. */
  fault: 3,
} as const;

export type ExitCode = (typeof ExitCode)[keyof typeof ExitCode];

/** Something the user asked for in a way that cannot be answered; told in one plain line. */
export class Misuse extends Error {}

export type Option = {
  type: 'boolean' | 'string';
  short?: string;
  /** What to write after it, as help names it. */
  value?: string;
  choices?: readonly string[];
  /** Whether it may be given several times, each with a value of its own. */
  multiple?: boolean;
  about: string;
};

/** What is chosen of an option. */
export type OptionValue = string | boolean | readonly string[];

export type Options = Readonly<Record<string, Option>>;

/** The options a call has, by their names. */
export type Chosen<O extends Options> = {
  readonly [Name in keyof O]?: O[Name] extends { type: 'boolean' }
    ? boolean
    : O[Name] extends { multiple: true }
      ? readonly string[]
      : O[Name] extends { choices: readonly (infer Choice)[] }
        ? Choice
        : string;
};

/** What is asked of a verb. */
export type Call<Options> = { operands: readonly string[]; chosen: Options; io: Io };

/** What a verb answers: its exit code, and the text for the standard output where it did not write it itself. */
export type Answer = { code: ExitCode; out?: string };

type About<O extends Options, C> = {
  /** What it does, in one line. */
  about: string;
  /** What follows the verb, such as `[paths]`. */
  operands: string;
  /** What else there is to know, in paragraphs. */
  details?: string;
  options: O;
  /** Command lines without the program's name, each with what it does. */
  examples: readonly (readonly [line: string, does: string])[];
  run: (call: Call<C>) => Promise<Answer>;
};

/** One verb of the command line, told by its help; what is chosen has been checked against its options. */
export type Verb = About<Options, Readonly<Record<string, OptionValue>>>;

/** A verb whose calls have the options it names; each file in `verbs/` gives one as `verb`. */
export function define<const O extends Options>(about: About<O, Chosen<O>>): Verb {
  return { ...about, run: ({ chosen, ...call }) => about.run({ ...call, chosen: chosen as Chosen<O> }) };
}
