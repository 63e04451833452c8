import type { ShelfPart } from './shelf.ts';

/** How a hose is sold. */
export type Sold = Pick<ShelfPart, 'sold' | 'costPer' | 'cost'>;

/** Lengths of one hose that are bought, and how they are cut. */
export type HosePlan = { pieces: number; cost: number | undefined; left: number };

/**
 * What is bought of a hose for several runs, m: of what is sold by length the steps that cover each run in one piece, of
 * pieces the fewest from which every run can be cut whole; what is left over, m. Nothing where a run is longer than a piece.
 */
export function hosePlan(part: Sold, runs: readonly number[]): HosePlan | undefined {
  const each = part.costPer?.value;
  if (!each || runs.length === 0) return undefined;
  const wanted = runs.reduce((sum, run) => sum + run, 0);
  const pieces = part.sold === 'length' ? Math.ceil(wanted / each - 1e-9) : fewestPieces(runs, each);
  if (pieces === undefined) return undefined;
  return { pieces, cost: part.cost === undefined ? undefined : pieces * part.cost, left: pieces * each - wanted };
}

/** The fewest pieces of a length from which all runs can be cut; there are few runs, so that every way is tried. */
function fewestPieces(runs: readonly number[], each: number): number | undefined {
  if (runs.some((run) => run > each + 1e-9)) return undefined;
  let fewest = runs.length;
  const place = (index: number, left: readonly number[]): void => {
    const run = runs[index];
    if (run === undefined) fewest = Math.min(fewest, left.length);
    else if (left.length < fewest) {
      for (const [at, room] of left.entries()) if (room >= run - 1e-9) place(index + 1, left.with(at, room - run));
      place(index + 1, [...left, each - run]);
    }
  };
  place(0, []);
  return fewest;
}
