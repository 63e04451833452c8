import { type FieldPath, inChanges } from '../sheet/path.ts';
import type { Finding, PlannedRepair } from './finding.ts';
import { type Found, planned } from './place.ts';
import type { Repair, StageRule } from './rule.ts';

/** Id of the finding that tells a part which covers the first stage and not a later one; its page is that of the rule. */
export const OUTGROWN = 'plan/part-outgrown';

/** A part that is large enough now and too small in a later stage: both ways out, buying now or replacing it then. */
export function outgrown(
  rule: StageRule,
  found: readonly Found[],
  worst: Found,
): Pick<Finding, 'rule' | 'found' | 'message' | 'repairs'> {
  const first = found[0] as Found;
  const isWorstFirst = first.stage.index === worst.stage.index;
  const since = isWorstFirst ? '' : ` and later; the most in stage "${worst.stage.name}"`;
  const message = `Enough today, but not in stage "${first.stage.name}"${since}: ${worst.draft.message}`;
  return {
    rule: OUTGROWN,
    found: rule.id,
    message,
    repairs: (worst.draft.repairs ?? []).flatMap((repair) => bothWays(repair, first, worst)),
  };
}

function bothWays(repair: Repair, first: Found, worst: Found): PlannedRepair[] {
  const isStageField = Object.keys(repair.set ?? {}).some((path) => path.startsWith('stages.'));
  if (isStageField || repair.remove?.length || repair.changes?.length) return [planned(repair, worst.stage)];
  const later = (path: FieldPath) => inChanges(first.stage.index, path);
  return [
    { ...planned({ ...repair, title: `Now: ${repair.title}` }, worst.stage), safe: false },
    {
      ...planned({ ...repair, title: `In stage "${first.stage.name}": ${repair.title}` }, worst.stage, later),
      safe: false,
    },
  ];
}
