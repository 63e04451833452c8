import type { FieldPath } from '../sheet/path.ts';
import type { OpenCheck } from './finding.ts';
import type { RuleId, Severity } from './rule.ts';

/** A field that is not known, and the checks that knowing it would settle or bring nearer. */
export type Question = { field: FieldPath; checks: readonly RuleId[] };

/** What a check that could not be made weighs by what it would find. */
const WEIGHTS: Record<Severity, number> = { error: 8, warning: 4, information: 2, hint: 1 };

/**
 * What to ask next: every field that open checks lack, weightiest first. A check that lacks one field only counts whole for
 * it; one that lacks several counts for each in part. Fields of equal weight stay in the order in which they were missed.
 */
export function questionsOf(open: readonly OpenCheck[]): Question[] {
  const found = new Map<FieldPath, { checks: RuleId[]; weight: number }>();
  for (const { rule, severity, lacks } of open) {
    for (const field of lacks) {
      const question = found.get(field) ?? { checks: [], weight: 0 };
      question.checks.push(rule);
      question.weight += WEIGHTS[severity] / lacks.length;
      found.set(field, question);
    }
  }
  return [...found]
    .toSorted(([, one], [, other]) => other.weight - one.weight)
    .map(([field, { checks }]) => ({ field, checks }));
}
