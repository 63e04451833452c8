/**
 * A copy of a stretch of a longer text. A stretch itself would keep the whole text in memory as long as anything read from
 * it is known.
 */
export function detached(stretch: string): string {
  return ` ${stretch}`.slice(1);
}
