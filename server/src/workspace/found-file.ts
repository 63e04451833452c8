import type { File } from './workspace.ts';

/** A file that is not there. */
export const absent: File = { kind: 'absent' };

/** A file that may not be read, and why, as the end of a sentence. */
export function refused(reason: string): File {
  return { kind: 'refused', reason };
}

export const NOT_REGULAR = 'it is not a regular file.';

export function tooLarge(mostBytes: number): string {
  return `it is larger than ${mostBytes / 1000} kB, the most that is read of such a file.`;
}

/** What bytes say, which are refused where they are no text. */
export function textFile(bytes: Uint8Array): File {
  try {
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    return refused('it is not UTF-8 text; save it as UTF-8.');
  }
}
