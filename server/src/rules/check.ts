import type { StageAnalysis } from '../analysis/analysis.ts';
import { rules } from '../generated/rules.ts';
import { pathText } from '../sheet/entry.ts';
import type { House } from '../sheet/house.ts';
import type { Sheet } from '../sheet/read.ts';
import type { Path } from '../sheet/schema.ts';
import { type Accepted, type Finding, markOf } from './finding.ts';
import { outgrown } from './outgrown.ts';
import { changesOf, type Found, pathOf, placeOf, planned } from './place.ts';
import type { Draft, PlanRule, Rule, RuleId, Severity, Situation, StageRule } from './rule.ts';
import { silenced } from './silence.ts';
import { situationOf } from './situation.ts';

/** What the rules say of a sheet: findings, and those that the sheet accepts with a reason. */
export type Verdict = { findings: Finding[]; accepted: Accepted[] };

/** Every finding of a sheet: one for each cause, with the stages it holds in. None while the text is broken YAML. */
export function check(sheet: Sheet, plan: readonly StageAnalysis[], house: House): Verdict {
  if (sheet.broken) return { findings: [], accepted: [] };
  const situations = plan.map((stage) => situationOf(stage, plan, house));
  const found = rules.flatMap((rule) =>
    severityOf(rule.id, house) === 'off' ? [] : findingsOf(rule, sheet, plan, situations),
  );
  const known = rules.map(({ id }) => id);
  const { left, accepted, told } = silenced(sheet, plan, found, known);
  const findings = [...left, ...told].flatMap((finding) => bySeverity(finding, house));
  return { findings: findings.toSorted((one, other) => one.range.start - other.range.start), accepted };
}

/** A finding with the severity the house gives its rule, or nothing where the house has turned it off. */
function bySeverity(finding: Finding, house: House): Finding[] {
  const severity = severityOf(finding.rule, house) ?? severityOf(finding.found, house);
  if (severity === 'off') return [];
  return [severity ? { ...finding, severity } : finding];
}

function findingsOf(
  rule: Rule,
  sheet: Sheet,
  plan: readonly StageAnalysis[],
  situations: readonly Situation[],
): Finding[] {
  if ('check' in rule) return stageFindings(rule, sheet, plan, situations);
  return 'checkPlan' in rule ? planFindings(rule, sheet, plan, situations) : [];
}

function severityOf(id: RuleId, house: House): Severity | 'off' | undefined {
  const setting = house.rules?.[id];
  return setting?.severity === 'off' && !setting.reason ? undefined : setting?.severity;
}

function stageFindings(
  rule: StageRule,
  sheet: Sheet,
  plan: readonly StageAnalysis[],
  situations: readonly Situation[],
): Finding[] {
  const groups = new Map<string, { path: Path; found: Found[] }>();
  situations.forEach((situation, index) => {
    const stage = plan[index] as StageAnalysis;
    for (const draft of listOf(rule.check(situation))) {
      const path = placeOf(draft.at, stage);
      const group = groups.get(pathText(path)) ?? { path, found: [] };
      group.found.push({ draft, stage });
      groups.set(pathText(path), group);
    }
  });
  return [...groups.values()].map(({ path, found }) => {
    const worst = found.reduce((one, other) => ((other.draft.excess ?? 0) > (one.draft.excess ?? 0) ? other : one));
    const isLater = rule.capacity && plan.length > 1 && found.every(({ stage }) => stage.index > 0);
    const isInStage = path[0] === 'stages';
    const later = isLater && !isInStage ? outgrown(rule, found, worst) : undefined;
    const stages = found.map(({ stage }) => stage.index);
    const everywhere = stages.length === plan.length;
    const names = found.map(({ stage }) => `"${stage.name}"`).join(', ');
    const where = everywhere || isInStage ? '' : `In stage ${names}: `;
    const base = {
      rule: rule.id,
      found: rule.id,
      severity: worst.draft.onlyAtBadEnd ? milder(rule.severity) : rule.severity,
      message: `${where}${lowerFirst(worst.draft.message, where !== '')}`,
      path,
      range: markOf(sheet, path),
      related: relatedOf(sheet, worst),
      repairs: (worst.draft.repairs ?? []).map((repair) => planned(repair, worst.stage)),
      stages,
    };
    const finding = later ? { ...base, ...later } : base;
    return { ...finding, message: finding.message + badEnd(worst.draft) };
  });
}

function planFindings(
  rule: PlanRule,
  sheet: Sheet,
  plan: readonly StageAnalysis[],
  situations: readonly Situation[],
): Finding[] {
  const first = plan[0] as StageAnalysis;
  return listOf(rule.checkPlan(situations)).map((draft) => {
    const path = pathOf(draft.at);
    return {
      rule: rule.id,
      found: rule.id,
      severity: rule.severity,
      message: draft.message,
      path,
      range: markOf(sheet, path),
      related: (draft.related ?? []).map(({ at, message }) => ({ range: markOf(sheet, pathOf(at)), message })),
      repairs: (draft.repairs ?? []).map((repair) => ({
        ...planned(repair, first),
        changes: changesOf(repair, pathOf),
      })),
      stages: [],
    };
  });
}

function relatedOf(sheet: Sheet, { draft, stage }: Found) {
  return (draft.related ?? []).map(({ at, message }) => ({ range: markOf(sheet, placeOf(at, stage)), message }));
}

function listOf(drafts: Draft | readonly Draft[] | undefined): readonly Draft[] {
  if (drafts === undefined) return [];
  return Array.isArray(drafts) ? drafts : [drafts as Draft];
}

function milder(severity: Severity): Severity {
  return severity === 'error' ? 'warning' : 'information';
}

function badEnd({ onlyAtBadEnd }: Draft): string {
  return onlyAtBadEnd ? ' This fails only at the bad end of the tolerances, not at the nominal values.' : '';
}

function lowerFirst(text: string, isInside: boolean): string {
  return isInside && !/^[A-Z]{2}/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}
