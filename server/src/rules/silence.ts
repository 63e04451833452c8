import type { StageAnalysis } from '../analysis/analysis.ts';
import type { Sheet } from '../sheet/read.ts';
import { type Finding, markOf } from './finding.ts';

/** Id of the finding that tells a silencer nothing needs. */
export const UNUSED_SILENCER = 'paper/unused-silencer';

/** The findings without those the sheet silences with a reason, and one for each silencer that silences nothing. */
export function silenced(sheet: Sheet, plan: readonly StageAnalysis[], findings: readonly Finding[]): Finding[] {
  const silencers = sheet.values.silence ?? [];
  if (silencers.length === 0) return [...findings];
  const used = new Set<number>();
  const left = findings.filter((finding) => {
    const index = silencers.findIndex(({ rule, stage, reason }) => {
      const isRule = reason && (rule === finding.rule || rule === finding.found);
      return isRule && (stage === undefined || finding.stages.every((number) => plan[number]?.name === stage));
    });
    if (index >= 0) used.add(index);
    return index < 0;
  });
  const unused = silencers.flatMap((silencer, index): Finding[] => {
    if (used.has(index)) return [];
    const path = ['silence', index];
    return [
      {
        rule: UNUSED_SILENCER,
        found: UNUSED_SILENCER,
        severity: 'information',
        message: `Nothing to silence: \`${silencer.rule}\` does not find anything here. Remove the silencer.`,
        path,
        range: markOf(sheet, [...path, 'rule']),
        related: [],
        repairs: [
          {
            title: 'Remove the silencer',
            changes: [{ remove: silencers.length === 1 ? ['silence'] : path }],
            safe: true,
            stage: 0,
          },
        ],
        stages: [],
      },
    ];
  });
  return [...left, ...unused];
}
