import { type Checked, checkText } from '../checking/checked.ts';
import type { Finding, PlannedRepair } from '../checking/finding.ts';
import { verifiedRepairs } from '../checking/repair.ts';
import { applyEdits } from '../sheet/edit.ts';
import { fixesThatHold, type Read, type ReadText } from '../sheet/fixes-that-hold.ts';
import type { Problem, TextEdit } from '../sheet/problem.ts';
import { difference } from '../text/difference.ts';
import type { Steps } from '../text/steps.ts';

/** Most repairs, and most spellings, in one go, so that it ends whatever is proposed. */
const MOST_REPAIRS = 100;

/** Whether anything could be mended without a choice; without trying it. */
export function mayFixAll({ sheet, findings }: Checked): boolean {
  return sheet.problems.some(hasOneFix) || findings.some(({ repairs }) => repairs.some(({ safe }) => safe));
}

/** The edits that mend everything that needs no choice, or what could be mended until time was up. */
export function* fixAll(checked: Checked, read: Read): Steps<TextEdit[]> {
  const readable = yield* respelled(checked, read);
  const after = yield* repaired(readable, (finding) => finding.repairs.filter(({ safe }) => safe));
  return difference(checked.sheet.text, after.sheet.text);
}

/** The edits that mend every finding of a rule by the first repair that holds. */
export function* fixRule(checked: Checked, rule: string): Steps<TextEdit[]> {
  const after = yield* repaired(checked, ({ found, repairs }) => (found === rule ? repairs : []));
  return difference(checked.sheet.text, after.sheet.text);
}

/**
 * The sheet once the problems that have one way to be mended are mended, one upon another, as long as each of them holds;
 * what one brings to light is mended as well.
 */
function* respelled(checked: Checked, read: Read): Steps<Checked> {
  const failed = new Set<string>();
  let sheet: ReadText = checked.sheet;
  for (let made = 0; made < MOST_REPAIRS; ) {
    const next = sheet.problems.find((problem) => hasOneFix(problem) && !failed.has(textOf(problem)));
    if (!next || (yield)) break;
    const [held] = fixesThatHold(sheet, next, read);
    if (held) {
      sheet = read(applyEdits(sheet.text, held.edits));
      made++;
    } else failed.add(textOf(next));
  }
  return sheet === checked.sheet ? checked : checkText(sheet.text, checked.house);
}

function hasOneFix({ fixes }: Problem): boolean {
  return fixes.length === 1 && fixes[0]?.preferred === true;
}

function textOf({ code, message, range }: Problem): string {
  return `${code} ${message} ${range.start}`;
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
