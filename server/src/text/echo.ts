/** Most characters of the user's text that a message repeats. */
export const MOST_ECHOED = 60;

/**
 * A text of the user as a message repeats it: on one line, at most 60 characters, cut between whole characters and the cut
 * marked by `…`.
 */
export function echo(text: string, most = MOST_ECHOED): string {
  const start = text.slice(0, 4 * most);
  const line = start.replaceAll(/[\p{C}\p{Z}]+/gu, ' ').trim();
  const characters = [...line];
  const isWhole = start.length === text.length && characters.length <= most;
  return isWhole ? line : `${characters.slice(0, most - 1).join('')}…`;
}

/** A text of the user between quotes as plain text shows it, bounded as by `echo`, and such that it cannot close them. */
export function quoted(text: string): string {
  const line = echo(text);
  return line.includes('"') && !line.includes("'") ? `'${line}'` : `"${line.replaceAll('"', "'")}"`;
}
