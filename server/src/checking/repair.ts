import { applyEdits, type Change, editsFor } from '../sheet/edit.ts';
import { type Entry, pathText } from '../sheet/entry.ts';
import { unitsIn } from '../sheet/house.ts';
import type { TextEdit } from '../sheet/problem.ts';
import { sharedPlaces } from '../sheet/shared-places.ts';
import { quoted } from '../text/echo.ts';
import { formatValue } from '../units/format.ts';
import { type Checked, checkText } from './checked.ts';
import type { Finding, PlannedRepair } from './finding.ts';
import { holds, tried } from './trial.ts';

/** A repair that held when it was tried on the values of the sheet; its edits are made when it is chosen. */
export type OfferedRepair = { title: string; planned: PlannedRepair; edits: TextEdit[] };

/** A repair whose edits were made and the whole text checked again. */
export type VerifiedRepair = OfferedRepair & { after: Checked };

/** The repairs of a finding that hold, in the order of the rule; no text is parsed for it. */
export function offeredRepairs(checked: Checked, finding: Finding): OfferedRepair[] {
  return finding.repairs.flatMap((planned) => offered(checked, finding, planned) ?? []);
}

/** The repairs of a finding that hold when the sheet with them is read and checked again. */
export function verifiedRepairs(checked: Checked, finding: Finding): VerifiedRepair[] {
  return finding.repairs.flatMap((planned) => {
    const repair = offered(checked, finding, planned);
    return (repair && verified(checked, finding, repair)) ?? [];
  });
}

function offered(checked: Checked, finding: Finding, planned: PlannedRepair): OfferedRepair | undefined {
  const edits = editsFor(checked.sheet, planned.changes);
  if (!edits?.length) return undefined;
  const after = tried(checked, finding, planned);
  if (!after) return undefined;
  const title = titleOf(planned, checked, after) + sharedNote(checked.sheet.root, planned.changes);
  return { title, planned, edits };
}

/** The repair with its edits made, or nothing where the changed text does not say what the trial did. */
export function verified(checked: Checked, finding: Finding, repair: OfferedRepair): VerifiedRepair | undefined {
  const after = checkText(applyEdits(checked.sheet.text, repair.edits), checked.house);
  const isSound = holds(finding, checked.findings, after.findings) && !bringsProblem(checked, after);
  return isSound ? { ...repair, after } : undefined;
}

function bringsProblem(before: Checked, after: Checked): boolean {
  const known = new Set(before.sheet.problems.map(({ code, message }) => `${code} ${message}`));
  return after.sheet.problems.some(({ code, message }) => !known.has(`${code} ${message}`));
}

function titleOf({ title, shows, stage }: PlannedRepair, before: Checked, after: Checked['plan']): string {
  if (!shows) return title;
  const [from, to] = [before.plan, after].map((plan) => {
    const figure = plan[stage]?.estimate(shows);
    return figure && formatValue(figure.value, figure.dimension, unitsIn(before.house));
  });
  if (!to) return title;
  return from && from !== to ? `${title} (${shows.name} ${from} -> ${to})` : `${title} (${shows.name} ${to})`;
}

/** What else a change of an anchored text changes, as a note to the title. */
function sharedNote(root: Entry, changes: readonly Change[]): string {
  const paths = sharedPlaces(root, changes);
  if (paths.length === 0) return '';
  const named = paths.slice(0, 3).map((path) => quoted(pathText(path)));
  const more = paths.length > named.length ? ` and ${paths.length - named.length} more` : '';
  return `; also changes ${named.join(', ')}${more}, written in the same place`;
}
