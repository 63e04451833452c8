import type { StageAnalysis } from '../analysis/analysis.ts';
import { isKnown } from '../analysis/figure.ts';
import { type StartingPoint, startingMap } from '../analysis/starting.ts';

/** The points to begin tuning a stage from, or why there are none. */
export type Starting = { stage: string } & (
  | { points: readonly StartingPoint[]; reason?: undefined }
  | { points?: undefined; reason: string }
);

/** What each stage can be started from. */
export function startingOf(plan: readonly StageAnalysis[]): Starting[] {
  return plan.map((stage): Starting => {
    const outcome = stage.see(startingMap);
    if (isKnown(outcome)) return { stage: stage.name, points: outcome.value };
    const { lacks = [], impossible } = outcome;
    return { stage: stage.name, reason: impossible ?? `it needs ${lacks.join(', ')}.` };
  });
}
