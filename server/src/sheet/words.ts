import { closest, distance } from 'fastest-levenshtein';
import { MOST_ECHOED } from '../text/echo.ts';

/** The known word that is probably meant by a written one: no more than a third of its letters differ. */
export function near(written: string, known: readonly string[]): string | undefined {
  if (known.length === 0 || written.length > MOST_ECHOED) return undefined;
  const best = closest(written.toLowerCase(), known);
  return distance(written.toLowerCase(), best) <= Math.max(1, Math.floor(written.length / 3)) ? best : undefined;
}

/** A word the schema knows and what else the trade calls it. */
export type Known = { word: string; synonyms: readonly string[] };

/** The known word a written one stands for: by a name of the trade, by its spelling without regard to case and joints, or nearly. */
export function meant(written: string, known: readonly Known[]): string | undefined {
  if (written.length > MOST_ECHOED) return undefined;
  const bare = letters(written);
  const same = known.find(({ word, synonyms }) => [word, ...synonyms].some((one) => letters(one) === bare));
  return (
    same?.word ??
    near(
      written,
      known.map(({ word }) => word),
    )
  );
}

function letters(word: string): string {
  return word.toLowerCase().replaceAll(/[\s_./-]+/g, '');
}
