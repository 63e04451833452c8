import type { StageAnalysis } from '../analysis/analysis.ts';
import { uncapital } from '../analysis/figure-words.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { rules as allRules } from '../generated/rules.ts';
import { pathText } from '../sheet/entry.ts';
import { type House, unitsIn } from '../sheet/house.ts';
import { makesSense } from '../sheet/makes-sense.ts';
import type { Path } from '../sheet/path.ts';
import { formatValue } from '../units/format.ts';
import { inUnits } from '../units/sentence.ts';
import { type Answers, type Asked, answersOf, type Fault } from './ask.ts';
import type { Accepted, Finding, OpenCheck } from './finding.ts';
import { notComputed } from './not-computed.ts';
import { OUTGROWN, outgrown } from './outgrown.ts';
import { type Found, placeOf, planned } from './place.ts';
import type { Draft, PlanRule, Rule, RuleId, Severity, StageRule } from './rule.ts';
import { silenced } from './silence.ts';
import { unlikelyValues } from './unlikely.ts';

/** What the rules say of a plan. */
export type Verdict = {
  findings: readonly Finding[];
  /** Findings that the sheet accepts with a reason. */
  accepted: readonly Accepted[];
  /** Checks that could not be made. */
  open: readonly OpenCheck[];
  faults: readonly Fault[];
  /** The plan and every answer, to be taken over where nothing a rule looked at differs. */
  plan: Plan;
  answers: Answers;
};

type Plan = readonly StageAnalysis[];

/**
 * Judges a plan by the rules and the house; with an earlier verdict only rules that something touches are asked again.
 * `settle` may settle answers that are open.
 */
export function judge(
  values: Partial<BuildSheet>,
  plan: Plan,
  house: House,
  before?: Verdict,
  rules: readonly Rule[] = allRules,
  settle = (answers: Answers) => answers,
): Verdict {
  const answers = answersOf(rulesIn(house, rules), plan, house, before);
  const { left, accepted, open, told } = findingsOf(values, plan, house, settle(answers), rules);
  const isWhole = plan.every(({ sheet }) => sheet.isWhole);
  return {
    findings: isWhole ? [...left, ...told] : left,
    accepted,
    open,
    faults: [
      ...plan.flatMap(({ faults }) => faults),
      ...[...answers.values()].flatMap((stages) => stages.flatMap(({ fault, later }) => (later === 0 && fault) || [])),
    ],
    plan,
    answers,
  };
}

/** What answers find: the findings that are left, those the sheet accepts, and silencers without an effect, and checks not made. */
export function findingsOf(
  values: Partial<BuildSheet>,
  plan: Plan,
  house: House,
  answers: Answers,
  rules: readonly Rule[] = allRules,
): Pick<Verdict, 'accepted' | 'open'> & { left: readonly Finding[]; told: readonly Finding[] } {
  const found = saidBy(plan, answers);
  const ids = rules.map(({ id }) => id);
  const say = sayingIn(house);
  const open = [...answers].flatMap(([rule, stages]) => openCheck(rule, stages, plan, say));
  const isWhole = plan.every(({ sheet }) => sheet.isWhole);
  const unmade = isWhole ? notComputed(open, toldReasons(answers, say)) : [];
  const { left, accepted, told } = silenced(values, plan, [...found, ...unlikelyValues(values), ...unmade], ids);
  const settled = (findings: readonly Finding[]) => findings.flatMap((finding) => bySeverity(finding, house));
  return { left: settled(left), accepted, open, told: settled(told) };
}

const NONE: readonly Finding[] = [];

/** The rules that a house has not turned off. */
export function rulesIn(house: House, rules: readonly Rule[]): Rule[] {
  return rules.filter(({ id }) => severityOf(id, house) !== 'off');
}

/** What answers find themselves, but for what the sheet accepts. */
export function foundBy(values: Partial<BuildSheet>, plan: Plan, house: House, answers: Answers): readonly Finding[] {
  const { left } = silenced(values, plan, saidBy(plan, answers), []);
  return left.flatMap((finding) => bySeverity(finding, house));
}

function saidBy(plan: Plan, answers: Answers): Finding[] {
  return [...answers].flatMap(([rule, stages]) => {
    if (stages.every(({ drafts }) => drafts.length === 0)) return NONE;
    return 'check' in rule ? stageFindings(rule, plan, stages) : planFindings(rule as PlanRule, plan, stages);
  });
}

/** Whether what a rule finds may be an error, in its own words or in the house's. */
export function mayBeError(rule: Rule, house: House): boolean {
  const severity = severityOf(rule.id, house) ?? rule.severity;
  const isCapacity = 'capacity' in rule && severityOf(OUTGROWN, house) === 'error';
  return severity === 'error' || isCapacity;
}

/** A sentence of the physics in the units of the house. */
type Say = (sentence: string) => string;

function sayingIn(house: House): Say {
  const units = unitsIn(house);
  return (sentence) => inUnits(sentence, (value, dimension) => formatValue(value, dimension, units));
}

/** Reasons why a figure is impossible that a rule tells in what it found. */
function toldReasons(answers: Answers, say: Say): Set<string> {
  const tellers = [...answers.values()].flat().filter(({ drafts }) => drafts.length > 0);
  return new Set(tellers.flatMap(({ watch }) => watch.reasons.map(say)));
}

/** A rule that lacked something which makes sense there, in the stages in which it found nothing. */
function openCheck({ id, title, severity }: Rule, answers: readonly Asked[], plan: Plan, say: Say): OpenCheck[] {
  if (!answers.some(lacksSomething)) return [];
  const open = answers.flatMap((answer, index) => {
    if (!lacksSomething(answer)) return [];
    const sheet = plan[index]?.sheet;
    const { lacks: fields, impossible } = answer.watch;
    const lacks = fields.filter((field) => !sheet || makesSense(field, sheet) !== false);
    return lacks.length > 0 || impossible.length > 0 ? [{ index, lacks, impossible: impossible.map(say) }] : [];
  });
  if (open.length === 0) return [];
  return [
    {
      rule: id,
      title,
      severity,
      stages: open.map(({ index }) => index),
      lacks: [...new Set(open.flatMap(({ lacks }) => lacks))],
      lacksByStage: open.map(({ lacks }) => lacks),
      impossible: [...new Set(open.flatMap(({ impossible }) => impossible))],
    },
  ];
}

/** Whether a rule has found nothing and was not told all it asked for. */
function lacksSomething({ drafts, watch }: Asked): boolean {
  return drafts.length === 0 && (watch.lacks.length > 0 || watch.impossible.length > 0);
}

/** A finding with the severity the house gives its rule, or nothing where the house has turned it off. */
function bySeverity(finding: Finding, house: House): Finding[] {
  const severity = severityOf(finding.rule, house) ?? severityOf(finding.found, house);
  if (severity === 'off') return [];
  return [severity ? { ...finding, severity } : finding];
}

function severityOf(id: RuleId, house: House): Severity | 'off' | undefined {
  const setting = house.rules?.[id];
  return setting?.severity === 'off' && !setting.reason ? undefined : setting?.severity;
}

/** The drafts of a rule that are about one place, over all stages. */
function stageFindings(rule: StageRule, plan: Plan, answers: readonly Asked[]): Finding[] {
  const groups = new Map<string, { path: Path; found: Found[] }>();
  answers.forEach(({ drafts }, index) => {
    const stage = plan[index] as StageAnalysis;
    for (const draft of drafts) {
      const path = placeOf(draft.at, stage);
      const group = groups.get(pathText(path)) ?? { path, found: [] };
      group.found.push({ draft, stage });
      groups.set(pathText(path), group);
    }
  });
  return [...groups.values()].map(({ path, found }) => merged(rule, path, found, plan));
}

function merged(rule: StageRule, path: Path, found: readonly Found[], plan: Plan): Finding {
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
    related: relatedOf(worst),
    repairs: (worst.draft.repairs ?? []).map((repair) => planned(repair, worst.stage)),
    stages,
    ...(worst.draft.excess !== undefined && { excess: worst.draft.excess }),
  };
  const finding = later ? { ...base, ...later } : base;
  return { ...finding, message: finding.message + badEnd(worst.draft) };
}

function planFindings(rule: PlanRule, plan: Plan, answers: readonly Asked[]): Finding[] {
  const stage = plan[0] as StageAnalysis;
  return answers.flatMap(({ drafts }) =>
    drafts.map((draft) => ({
      rule: rule.id,
      found: rule.id,
      severity: rule.severity,
      message: draft.message,
      path: ofWholePlan(draft.at),
      related: (draft.related ?? []).map(({ at, message }) => ({ path: ofWholePlan(at), message })),
      repairs: (draft.repairs ?? []).map((repair) => planned(repair, stage, ofWholePlan)),
      stages: [],
    })),
  );
}

/** A rule about the whole plan means the sheet itself, not what a stage changes. */
function ofWholePlan(at: Draft['at']): Path {
  return typeof at === 'string' ? at.split('.') : at;
}

function relatedOf({ draft, stage }: Found) {
  return (draft.related ?? []).map(({ at, message }) => ({ path: placeOf(at, stage), message }));
}

function milder(severity: Severity): Severity {
  return severity === 'error' ? 'warning' : 'information';
}

function badEnd({ onlyAtBadEnd }: Draft): string {
  return onlyAtBadEnd ? ' This fails only at the bad end of the tolerances, not at the nominal values.' : '';
}

function lowerFirst(text: string, isInside: boolean): string {
  return isInside && !/^[A-Z]{2}/.test(text) ? uncapital(text) : text;
}
