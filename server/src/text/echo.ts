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

/** A text of the user between backticks, bounded as by `echo`; backticks within it become apostrophes. */
export function quoted(text: string): string {
  return `\`${echo(text).replaceAll('`', "'")}\``;
}
