import type { Checked } from '../checking/checked.ts';
import type { PlacedFinding } from '../checking/finding.ts';
import { offeredRepairs, verifiedRepairs } from '../checking/repair.ts';
import { fixesThatHold, type Read, type ReadText } from '../sheet/fixes-that-hold.ts';
import type { TextEdit } from '../sheet/problem.ts';
import { type Range, touches } from '../text/place.ts';
import type { Steps } from '../text/steps.ts';
import { type Diagnosis, findingDiagnosis, problemDiagnosis } from './diagnostics.ts';
import { fixAll, fixRule, mayFixAll } from './fix-all.ts';
import { olderFormat, UPGRADE, upgradeEdits } from './upgrade.ts';

/**
 * What is meant, in words that can be sent and sent back: a repair of a finding, all of a rule, all without a choice, or
 * the newest version of the format.
 */
export type Choice =
  | { finding: number; repair: number; title: string }
  | { rule: string }
  | { all: true }
  | { upgrade: true };

/** Something that would mend what is wrong. */
export type Offer = {
  title: string;
  preferred: boolean;
  mends: readonly Diagnosis[];
  /** The edits, where they are known already. */
  edits?: readonly TextEdit[];
  /** What to ask for to get the edits, where they are not. */
  choice?: Choice;
};

/** Most findings that repairs are listed for at once, as when a whole text is selected. */
const MOST_FINDINGS = 50;

/** Most problems whose fixes are tried at once. */
const MOST_PROBLEMS = 10;

/**
 * Repairs for what stands in a stretch of a sheet. Those of a finding were tried on its values, as long as there was time;
 * their edits are made and the text with them checked when they are chosen.
 */
export function* repairsAt(uri: string, checked: Checked, range: Range, read: Read): Steps<Offer[]> {
  const touched = checked.findings.filter((finding) => touches(finding.range, range)).slice(0, MOST_FINDINGS);
  const offers = problemRepairs(uri, checked.sheet, range, read);
  for (const finding of touched) offers.push(...(yield* findingRepairs(uri, checked, finding)));
  return [...offers, ...ruleRepairs(uri, checked, touched), ...upgrade(checked, range)];
}

/** Ways to mend the problems in a stretch of text, for sheets and house rules alike. */
export function problemRepairs(uri: string, sheet: ReadText, range: Range, read: Read): Offer[] {
  const touched = sheet.problems.filter((problem) => touches(problem.range, range)).slice(0, MOST_PROBLEMS);
  return touched.flatMap((problem) => {
    const mends = [problemDiagnosis(uri, sheet.text, problem)];
    return fixesThatHold(sheet, problem, read).map(({ title, edits, preferred }) => ({
      title,
      preferred,
      mends,
      edits,
    }));
  });
}

function* findingRepairs(uri: string, checked: Checked, finding: PlacedFinding): Steps<Offer[]> {
  const mends = [findingDiagnosis(uri, checked.sheet.text, finding)];
  const offers: Offer[] = [];
  for (const [index, repair] of finding.repairs.entries()) {
    const isLate = yield;
    const preferred = offers.length === 0;
    const choice = { finding: checked.findings.indexOf(finding), repair: index, title: repair.title };
    if (isLate) offers.push({ title: repair.title, preferred, mends, choice });
    else {
      const held = offeredRepairs(checked, { ...finding, repairs: [repair] });
      offers.push(...held.map(({ title }) => ({ title, preferred, mends, choice })));
    }
  }
  return offers;
}

/** One offer for all findings of a rule, where there are several in the sheet. */
function ruleRepairs(uri: string, checked: Checked, touched: readonly PlacedFinding[]): Offer[] {
  return [...new Set(touched.map(({ found }) => found))].flatMap((rule) => {
    const same = checked.findings.filter(({ found }) => found === rule);
    const mendable = same.filter(({ repairs }) => repairs.length > 0);
    if (same.length < 2 || mendable.length === 0) return [];
    const mends = same.slice(0, MOST_FINDINGS).map((finding) => findingDiagnosis(uri, checked.sheet.text, finding));
    return [{ title: `Fix all of "${rule}"`, preferred: false, mends, choice: { rule } }];
  });
}

/** The newest version of the format, offered where the version stands. */
function upgrade(checked: Checked, range: Range): Offer[] {
  const place = olderFormat(checked);
  if (!place || !touches(place, range)) return [];
  return [{ title: UPGRADE, preferred: false, mends: [], choice: { upgrade: true } }];
}

/** Everything that can be mended without a choice, as one offer. */
export function allRepairs(checked: Checked): Offer[] {
  if (!mayFixAll(checked)) return [];
  return [{ title: 'Fix all that needs no choice', preferred: false, mends: [], choice: { all: true } }];
}

/** The edits of a choice; none, if it does not hold. */
export function* editsOf(checked: Checked, choice: Choice, read: Read): Steps<readonly TextEdit[]> {
  if ('all' in choice) return yield* fixAll(checked, read);
  if ('upgrade' in choice) return upgradeEdits(checked);
  if ('rule' in choice) return yield* fixRule(checked, choice.rule);
  const finding = checked.findings[choice.finding];
  const repair = finding?.repairs[choice.repair];
  if (!finding || repair?.title !== choice.title) return [];
  return verifiedRepairs(checked, { ...finding, repairs: [repair] })[0]?.edits ?? [];
}
