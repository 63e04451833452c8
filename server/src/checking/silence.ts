import type { StageAnalysis } from '../analysis/analysis.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { near } from '../sheet/words.ts';
import type { Accepted, Finding, PlannedRepair } from './finding.ts';
import type { RuleId } from './rule.ts';

/** Ids of the findings that tell a silencer without an effect: nothing needs it, or it names a rule or stage that is not there. */
export const UNUSED_SILENCER = 'paper/unused-silencer';
export const UNKNOWN_SILENCED_RULE = 'paper/unknown-silenced-rule';
export const UNKNOWN_SILENCED_STAGE = 'paper/unknown-silenced-stage';

/** For so many silencers it is guessed which rule or stage is meant; comparing words takes its time. */
const MOST_GUESSED = 50;

type Silencer = NonNullable<BuildSheet['silence']>[number];

/** The findings the sheet does not silence, those it silences with a reason, and one for each silencer without an effect. */
export function silenced(
  values: Partial<BuildSheet>,
  plan: readonly StageAnalysis[],
  findings: readonly Finding[],
  knownRules: readonly string[],
): { left: Finding[]; accepted: Accepted[]; told: Finding[] } {
  const silencers = values.silence ?? [];
  if (silencers.length === 0) return { left: [...findings], accepted: [], told: [] };
  const accepted: Accepted[] = [];
  const left = findings.filter((finding) => {
    const silencer = silencers.findIndex(({ rule, stage, reason }) => {
      const isRule = reason && (rule === finding.rule || rule === finding.found);
      return isRule && (stage === undefined || finding.stages.every((number) => plan[number]?.name === stage));
    });
    if (silencer >= 0) accepted.push({ finding, reason: silencers[silencer]?.reason ?? '', silencer });
    return silencer < 0;
  });
  const used = new Set(accepted.map(({ silencer }) => silencer));
  const stages = plan.map(({ name }) => name);
  const told = silencers.flatMap((silencer, index) =>
    used.has(index) || !silencer.rule
      ? []
      : [withoutEffect(silencers.length === 1, silencer, index, { rules: knownRules, stages })],
  );
  return { left, accepted, told };
}

function withoutEffect(
  isOnly: boolean,
  { rule, stage }: Silencer,
  index: number,
  known: { rules: readonly string[]; stages: readonly string[] },
): Finding {
  const path = ['silence', index];
  const removed: PlannedRepair = {
    title: 'Remove the entry',
    changes: [{ remove: isOnly ? ['silence'] : path }],
    safe: false,
    stage: 0,
  };
  const tell = (id: RuleId, field: 'rule' | 'stage', message: string, repairs: PlannedRepair[]): Finding => ({
    rule: id,
    found: id,
    severity: 'hint',
    message,
    path: [...path, field],
    related: [],
    repairs,
    stages: [],
  });
  const unknown = (id: RuleId, field: 'rule' | 'stage', what: string, meant: string | undefined) =>
    tell(id, field, `${what}${meant ? `; did you mean "${meant}"?` : '.'} It silences nothing.`, [
      ...(meant
        ? [{ title: `Write "${meant}"`, changes: [{ set: [...path, field], to: meant }], safe: false, stage: 0 }]
        : []),
      removed,
    ]);
  const meant = (written: string, words: readonly string[]) =>
    index < MOST_GUESSED ? near(written, [...words]) : undefined;
  if (!known.rules.includes(rule)) {
    return unknown(UNKNOWN_SILENCED_RULE, 'rule', `"${rule}" is not a rule`, meant(rule, known.rules));
  }
  if (stage !== undefined && !known.stages.includes(stage)) {
    return unknown(UNKNOWN_SILENCED_STAGE, 'stage', `No stage is named "${stage}"`, meant(stage, known.stages));
  }
  return tell(UNUSED_SILENCER, 'rule', `Nothing to silence: "${rule}" does not find anything here.`, [
    { ...removed, safe: true },
  ]);
}
