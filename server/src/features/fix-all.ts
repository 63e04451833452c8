import { type Checked, checkText } from '../checking/checked.ts';
import type { Finding, PlannedRepair } from '../checking/finding.ts';
import { verifiedRepairs } from '../checking/repair.ts';
import { applyEdits } from '../sheet/edit.ts';
import type { Problem, TextEdit } from '../sheet/problem.ts';
import { difference } from '../text/difference.ts';
import type { Steps } from '../text/steps.ts';

/** Most repairs and most rounds of spelling in one go, so that it ends whatever the rules propose. */
const MOST_REPAIRS = 100;
const MOST_ROUNDS = 10;

/** Whether anything could be mended without a choice; without trying it. */
export function mayFixAll({ sheet, findings }: Checked): boolean {
  return onlyFixes(sheet.problems).length > 0 || findings.some(({ repairs }) => repairs.some(({ safe }) => safe));
}

/** The edits that mend everything that needs no choice, or what could be mended until time was up. */
export function* fixAll(checked: Checked): Steps<TextEdit[]> {
  const readable = yield* respelled(checked);
  const after = yield* repaired(readable, (finding) => finding.repairs.filter(({ safe }) => safe));
  return difference(checked.sheet.text, after.sheet.text);
}

/** The edits that mend every finding of a rule by the first repair that holds. */
export function* fixRule(checked: Checked, rule: string): Steps<TextEdit[]> {
  const after = yield* repaired(checked, ({ found, repairs }) => (found === rule ? repairs : []));
  return difference(checked.sheet.text, after.sheet.text);
}

/** The sheet once the problems that have one way to be mended are mended, which may bring others to light. */
function* respelled(checked: Checked): Steps<Checked> {
  let current = checked;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const fixes = onlyFixes(current.sheet.problems);
    if (fixes.length === 0 || (yield)) return current;
    const after = checkText(applyEdits(current.sheet.text, fixes), current.house);
    if (after.sheet.broken && !current.sheet.broken) return current;
    current = after;
  }
  return current;
}

/** The edits of the problems that have one way to be mended. */
function onlyFixes(problems: readonly Problem[]): TextEdit[] {
  const only = problems.flatMap(({ fixes }) => (fixes.length === 1 && fixes[0]?.preferred ? fixes[0].edits : []));
  const sorted = only.toSorted((one, other) => one.start - other.start);
  return sorted.filter((edit, index) => edit.start >= (sorted[index - 1]?.end ?? 0));
}

type Wanted = (finding: Finding) => readonly PlannedRepair[];

/** The sheet after repair upon repair was tried and made, until none holds any more. */
function* repaired(checked: Checked, wanted: Wanted): Steps<Checked> {
  let current = checked;
  for (let made = 0; made < MOST_REPAIRS; made++) {
    const next: Checked | undefined = yield* firstThatHolds(current, wanted);
    if (!next) return current;
    current = next;
  }
  return current;
}

function* firstThatHolds(checked: Checked, wanted: Wanted): Steps<Checked | undefined> {
  for (const finding of checked.findings) {
    for (const repair of wanted(finding)) {
      if (yield) return undefined;
      const [held] = verifiedRepairs(checked, { ...finding, repairs: [repair] });
      if (held) return held.after;
    }
  }
  return undefined;
}
