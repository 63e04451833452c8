/** The largest relative difference of `got` from the value in `column`, over all rows of a grid of outside values. */
export function worst(
  rows: readonly (readonly number[])[],
  column: number,
  got: (...row: [number, number, number, number, number]) => number,
): number {
  return Math.max(
    ...rows.map((row) => {
      const expected = row[column] as number;
      return Math.abs(got(...(row as [number, number, number, number, number])) / expected - 1);
    }),
  );
}
