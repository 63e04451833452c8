import { checkText } from '../../server/src/checking/checked.ts';
import { pathText } from '../../server/src/sheet/entry.ts';
import { noHouse } from '../../server/src/sheet/house.ts';

/** A text that a finding shows, the finding's rule and field, and the sheet it is found in. */
export type Shown = { at: string; rule: string; field: string; text: string; sheet: string };

/** Messages and titles of repairs of all that is found in a sheet. */
export function shownIn(at: string, sheet: string): Shown[] {
  return checkText(sheet, noHouse).findings.flatMap(({ found, path, message, repairs }) =>
    [message, ...repairs.map(({ title }) => title)].map((text) => ({
      at,
      rule: found,
      field: pathText(path),
      text,
      sheet,
    })),
  );
}
