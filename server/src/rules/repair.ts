import { applyEdits, editsFor } from '../sheet/edit.ts';
import { pathText } from '../sheet/entry.ts';
import type { TextEdit } from '../sheet/problem.ts';
import { formatValue } from '../units/format.ts';
import { type Checked, checkText } from './checked.ts';
import type { Finding, PlannedRepair } from './finding.ts';

/** A repair that was tried: its edits make the finding go away and bring no new error. */
export type VerifiedRepair = { title: string; planned: PlannedRepair; edits: TextEdit[]; after: Checked };

/** The repairs of a finding that hold when the sheet with them is checked again, in the order of the rule. */
export function verifiedRepairs(checked: Checked, finding: Finding): VerifiedRepair[] {
  return finding.repairs.flatMap((repair) => verified(checked, finding, repair) ?? []);
}

function verified(checked: Checked, finding: Finding, planned: PlannedRepair): VerifiedRepair | undefined {
  const edits = editsFor(checked.sheet, planned.changes);
  if (!edits?.length) return undefined;
  const after = checkText(applyEdits(checked.sheet.text, edits), checked.house);
  if (!isGone(finding, checked, after) || bringsError(checked, after)) return undefined;
  return { title: titleOf(planned, checked, after), planned, edits, after };
}

/** Not found at its place any more; in a list, where the next item may have moved up, found one time less. */
function isGone(finding: Finding, before: Checked, after: Checked): boolean {
  const left = after.findings.filter(({ found }) => found === finding.found);
  const known = before.findings.filter(({ found }) => found === finding.found);
  const isInList = finding.path[0] !== 'stages' && finding.path.some((step) => typeof step === 'number');
  if (isInList && left.length < known.length) return true;
  return !left.some((other) => {
    const isSameStage = other.stages.some((stage) => finding.stages.includes(stage));
    return pathText(other.path) === pathText(finding.path) || (isSameStage && fieldOf(other) === fieldOf(finding));
  });
}

/** The field a finding is about, wherever the text says it: a repair in a stage's changes moves it there. */
function fieldOf({ path }: Finding): string {
  return pathText(path[0] === 'stages' && path[2] === 'changes' ? path.slice(3) : path);
}

function bringsError(before: Checked, after: Checked): boolean {
  const known = new Set(errorsOf(before));
  return errorsOf(after).some((error) => !known.has(error));
}

function errorsOf({ sheet, findings }: Checked): string[] {
  return [
    ...sheet.problems.map(({ code, message }) => `${code} ${message}`),
    ...findings.filter(({ severity }) => severity === 'error').map(({ found }) => found),
  ];
}

function titleOf({ title, shows, stage }: PlannedRepair, before: Checked, after: Checked): string {
  const [from, to] = [before, after].map(({ plan, house }) => {
    const figure = shows === undefined ? undefined : plan[stage]?.figures.get(shows);
    return figure && { name: figure.name, text: formatValue(figure.value, figure.dimension, house.units ?? 'us') };
  });
  if (!to) return title;
  return from && from.text !== to.text
    ? `${title} (${to.name} ${from.text} -> ${to.text})`
    : `${title} (${to.name} ${to.text})`;
}

/** A text after every safe repair, of all rules or of one, was applied round by round until nothing changes. */
export function repairAll(checked: Checked, rule?: string): Checked {
  let current = checked;
  for (let round = 0; round < 100; round++) {
    const next = firstRepair(current, rule);
    if (!next) return current;
    current = next;
  }
  return current;
}

function firstRepair(checked: Checked, rule: string | undefined): Checked | undefined {
  for (const finding of checked.findings) {
    if (rule !== undefined && finding.found !== rule) continue;
    for (const planned of finding.repairs) {
      const repair = rule !== undefined || planned.safe ? verified(checked, finding, planned) : undefined;
      if (repair) return repair.after;
    }
  }
  return undefined;
}
