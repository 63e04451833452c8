import { analyze, type StageAnalysis } from '../analysis/analysis.ts';
import { changedValues } from '../sheet/changed.ts';
import { takenAt } from '../sheet/with-parts.ts';
import { answersOf } from './ask.ts';
import type { Checked } from './checked.ts';
import type { Finding, PlannedRepair } from './finding.ts';
import { fieldOf, identities } from './identity.ts';
import { findingsOf, judge, mayBeError } from './judge.ts';
import type { Rule } from './rule.ts';

/** The stages of a sheet. */
type Plan = readonly StageAnalysis[];

/**
 * Tries a repair on the values of a sheet: only what stands on a changed field is computed and asked again. The plan as it
 * then is, or nothing where the finding stays or another error comes. What errs only at the bad end of the tolerances is no
 * error, so that tolerances count for the rule of the finding alone.
 */
export function tried(checked: Checked, finding: Finding, { changes }: PlannedRepair): Plan | undefined {
  const { sheet, house, verdict } = checked;
  const values = changedValues(sheet.values, changes);
  if (!values || changes.some((change) => 'remove' in change && takenAt(sheet, change.remove))) return undefined;
  const plan = analyze(values, house, checked.plan, sheet.unread);
  const before = plan.length === checked.plan.length ? verdict : undefined;
  const rules = [...verdict.answers.keys()];
  const own = rules.filter(({ id }) => id === finding.found);
  if (own.length === 0) {
    const { findings } = judge(values, plan, house, before);
    return holds(finding, verdict.findings, findings) ? plan : undefined;
  }
  const found = (asked: readonly Rule[], seen: Plan) =>
    findingsOf(values, seen, house, answersOf(asked, seen, house, before)).left;
  const grave = rules.filter((rule) => mayBeError(rule, house));
  const isHeld =
    isGone(finding, verdict.findings, found(own, plan)) &&
    !bringsError(
      verdict.findings,
      found(
        grave,
        plan.map((stage) => stage.nominal),
      ),
    );
  return isHeld ? plan : undefined;
}

/** Whether a finding is gone and no error is new. */
export function holds(finding: Finding, before: readonly Finding[], after: readonly Finding[]): boolean {
  return isGone(finding, before, after) && !bringsError(before, after);
}

/** Not found at its place any more; in a list, where the next item may have moved up, found one time less. */
function isGone(finding: Finding, before: readonly Finding[], after: readonly Finding[]): boolean {
  const left = after.filter(({ found }) => found === finding.found);
  const known = before.filter(({ found }) => found === finding.found);
  const isInList = finding.path[0] !== 'stages' && finding.path.some((step) => typeof step === 'number');
  if (isInList && left.length < known.length) return true;
  const own = new Set(identities(finding));
  return !left.some((other) => fieldOf(other) === fieldOf(finding) && identities(other).some((one) => own.has(one)));
}

function bringsError(before: readonly Finding[], after: readonly Finding[]): boolean {
  const known = new Set(errors(before));
  return errors(after).some((error) => !known.has(error));
}

function errors(findings: readonly Finding[]): string[] {
  return findings.filter(({ severity }) => severity === 'error').flatMap(identities);
}
