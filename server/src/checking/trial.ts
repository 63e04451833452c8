import { analyze, type StageAnalysis } from '../analysis/analysis.ts';
import { changedValues } from '../sheet/changed.ts';
import type { Checked } from './checked.ts';
import type { Finding, PlannedRepair } from './finding.ts';
import { fieldOf, identities } from './identity.ts';
import { judge, type Verdict } from './judge.ts';

/** What a sheet would be with a change, computed on values alone. */
export type Trial = { plan: readonly StageAnalysis[]; verdict: Verdict };

/**
 * Tries a repair on the values of a sheet: only what stands on a changed field is computed and asked again. Nothing where
 * the finding stays or another error comes.
 */
export function tried(checked: Checked, finding: Finding, repair: PlannedRepair): Trial | undefined {
  const trial = trialOf(checked, repair);
  return trial && holds(finding, checked.verdict.findings, trial.verdict.findings) ? trial : undefined;
}

function trialOf(
  { sheet, house, plan: known, verdict: before }: Checked,
  { changes }: PlannedRepair,
): Trial | undefined {
  const values = changedValues(sheet.values, changes);
  if (!values) return undefined;
  const plan = analyze(values, house, known, sheet.unread);
  return { plan, verdict: judge(values, plan, house, plan.length === known.length ? before : undefined) };
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
