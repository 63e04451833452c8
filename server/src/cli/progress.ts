import type { Io } from './io.ts';

/** Work that is done sooner shows nothing, and what is shown changes no more often, in ms. */
const PATIENCE = 500;
const EVERY = 100;

/** Shows on the terminal how far long work has come, and takes it away again; nothing where nobody sits there. */
export function progressOn({ isAttended, show }: Pick<Io, 'isAttended' | 'show'>): {
  tell: (done: number, all: number) => void;
  end: () => void;
} {
  if (!isAttended) return { tell: () => undefined, end: () => undefined };
  let due = performance.now() + PATIENCE;
  let isShown = false;
  return {
    tell: (done, all) => {
      if (performance.now() < due) return;
      due = performance.now() + EVERY;
      isShown = true;
      show(`\r${done} of ${all} files checked\u001b[K`);
    },
    end: () => {
      if (isShown) show('\r\u001b[K');
    },
  };
}
