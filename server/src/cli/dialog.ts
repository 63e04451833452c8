import { createInterface } from 'node:readline';

/** A talk with someone, or with a script, line by line. */
export type Dialog = {
  /** The next line after a prompt, with words the Tab key completes; nothing, once there are no more or the user stops. */
  line: (prompt: string, words: readonly string[]) => Promise<string | undefined>;
  close: () => void;
};

/** A talk over the standard streams: with editing, history and completion where someone sits at a terminal. */
export function dialogOver(input: NodeJS.ReadStream, output: NodeJS.WriteStream): Dialog {
  let completing: readonly string[] = [];
  const completer = (begun: string) => {
    const hits = completing.filter((word) => word.startsWith(begun.trim()));
    return [hits.length > 0 ? hits : [...completing], begun] as [string[], string];
  };
  const lines: string[] = [];
  let waiting: ((line: string | undefined) => void) | undefined;
  let isOver = false;
  const reader = createInterface({ input, output, completer, historySize: 0 });
  const give = (line: string | undefined) => {
    const give = waiting;
    waiting = undefined;
    give?.(line);
  };
  reader.on('line', (line) => (waiting ? give(line) : lines.push(line)));
  reader.on('SIGINT', () => reader.close());
  reader.on('close', () => {
    isOver = true;
    give(undefined);
  });
  return {
    line: (prompt, words) => {
      completing = words;
      if (lines.length > 0 || isOver) return Promise.resolve(lines.shift());
      return new Promise((resolve) => {
        waiting = resolve;
        reader.setPrompt(prompt);
        reader.prompt();
      });
    },
    close: () => reader.close(),
  };
}
