import type { Problem, TextEdit } from '../../sheet/problem.ts';
import { applyEdits } from '../../text/apply-edits.ts';
import { quoted } from '../../text/echo.ts';
import type { Range } from '../../text/place.ts';
import { anchorNames } from './anchor-names.ts';
import type { NamedText, NameKind, Occurrence } from './name-kind.ts';
import { stageNames } from './stage-names.ts';

/** The kinds of names that can be followed and changed. */
export const nameKinds: readonly NameKind[] = [stageNames, anchorNames];

/** A name with every place of the thing it names. */
export type Named = { kind: NameKind; here: Occurrence; same: readonly Occurrence[]; all: readonly Occurrence[] };

/** The name at an offset, if one stands there. */
export function nameAt(sheet: NamedText, offset: number): Named | undefined {
  for (const kind of nameKinds) {
    const all = kind.occurrences(sheet);
    const here = all.find(({ range }) => range.start <= offset && offset <= range.end);
    if (here) return { kind, here, same: all.filter(({ thing }) => thing === here.thing), all };
  }
  return undefined;
}

/** What a rename comes to: its edits, or why it cannot be. */
export type Renaming = { edits: readonly TextEdit[] } | { refusal: string };

/** Another name for what is named at an offset, everywhere it is; only if the text with it is no worse to read. */
export function renamed(
  sheet: NamedText & { problems: readonly Problem[] },
  offset: number,
  name: string,
  read: (text: string) => { problems: readonly Problem[] },
): Renaming {
  const named = nameAt(sheet, offset);
  if (!named) return { refusal: 'There is no name here that can be changed.' };
  const { kind, here, same, all } = named;
  if (name === here.name) return { edits: [] };
  const taken = new Set(all.filter(({ role }) => role === 'given').map((one) => one.name));
  const refusal = kind.refusal(name, taken);
  if (refusal) return { refusal };
  const meant = meantOf(here, same);
  if (!meant) return { refusal: `Several are named ${quoted(here.name)}; change the name where it is given.` };
  const edits = kind.renamed(sheet, meant, name);
  const isSound = edits && read(applyEdits(sheet.text, edits)).problems.length <= sheet.problems.length;
  return isSound ? { edits } : { refusal: `${quoted(name)} cannot be written here.` };
}

/** Where one thing is named, all its places; of several of the same name the one that is given here. */
function meantOf(here: Occurrence, same: readonly Occurrence[]): readonly Occurrence[] | undefined {
  if (same.filter(({ role }) => role === 'given').length <= 1) return same;
  return here.role === 'given' ? [here] : undefined;
}

/** The places that read the same and change together while one of them is typed in, and what may be typed. */
export function linkedAt(sheet: NamedText, offset: number): { ranges: Range[]; pattern: string } | undefined {
  const named = nameAt(sheet, offset);
  if (!named) return undefined;
  const { kind, here, same } = named;
  const written = ({ range }: Occurrence) => sheet.text.slice(range.start, range.end);
  const ranges = (meantOf(here, same) ?? []).filter((one) => written(one) === written(here)).map(({ range }) => range);
  return ranges.length > 1 ? { ranges, pattern: kind.pattern } : undefined;
}
