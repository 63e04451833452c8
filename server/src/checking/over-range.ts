import { analyze, type StageAnalysis } from '../analysis/analysis.ts';
import type { BuildSheet } from '../generated/build-sheet.ts';
import { changedValues } from '../sheet/changed.ts';
import type { Change } from '../sheet/edit.ts';
import { type House, unitsIn } from '../sheet/house.ts';
import { makesSense } from '../sheet/makes-sense.ts';
import { type FieldPath, fieldSchema, inStage, type Path, stepsOf, valueAt } from '../sheet/path.ts';
import { usualRange } from '../sheet/usual-range.ts';
import { formatGiven } from '../units/format.ts';
import { isQuantity } from '../units/quantity.ts';
import { readQuantity } from '../units/read.ts';
import { type Answers, type Asked, answersOf } from './ask.ts';
import type { Draft, Rule } from './rule.ts';
import { Watch } from './watch.ts';

type Sheet = { values: Partial<BuildSheet>; unread: readonly Path[] };
type Plan = readonly StageAnalysis[];

/** Fields that checks lack together, and the checks that lack just these. */
type Lot = { fields: readonly FieldPath[]; rules: Rule[] };

/** The fields of a lot at one place in their ranges, and what its rules then say. */
type Trial = { written: readonly string[]; answers: Answers };

/** Most fields that are moved together, and most stages of a plan for which it is done, so that typing need not wait. */
const MOST_FIELDS = 3;
const MOST_STAGES = 8;

/**
 * Settles checks that lack only fields with a usual range: broken at every end and in the middle of it, they are told, each
 * by its mildest case and without a repair, since nothing is known to repair; kept there, they are kept; others stay open,
 * and so does what is about a missing field itself.
 */
export function settledOverRanges({ values, unread }: Sheet, plan: Plan, house: House, answers: Answers): Answers {
  if (plan.length > MOST_STAGES || plan.some(({ sheet }) => !sheet.isWhole)) return answers;
  const settled = new Map(answers);
  for (const { fields, rules } of lotsOf(plan, answers)) {
    const trials = casesOf(fields).flatMap((written): Trial[] => {
      const changes = fields.flatMap((field, index) => changesFor(plan, field, written[index] as string));
      const changed = changedValues(values, changes);
      if (!changed) return [];
      const tried = analyze(changed, house, plan, unread);
      return [{ written, answers: answersOf(rules, tried, house) }];
    });
    if (trials.length <= 2 ** fields.length) continue;
    for (const rule of rules) {
      const before = answers.get(rule) ?? [];
      settled.set(
        rule,
        before.map((asked, index) => settledIn(rule, asked, index, fields, trials, plan, house)),
      );
    }
  }
  return settled;
}

function lotsOf(plan: Plan, answers: Answers): Iterable<Lot> {
  const lots = new Map<string, Lot>();
  for (const [rule, stages] of answers) {
    if (!('check' in rule) || (rule.severity !== 'error' && rule.severity !== 'warning')) continue;
    const fields = fieldsToSettle(plan, stages);
    if (!fields) continue;
    const key = fields.join(' ');
    const lot = lots.get(key) ?? { fields, rules: [] };
    lot.rules.push(rule);
    lots.set(key, lot);
  }
  return lots.values();
}

/** The fields that the open answers of a rule lack, where they are few and each has a range. */
function fieldsToSettle(plan: Plan, stages: readonly Asked[]): FieldPath[] | undefined {
  const fields = new Set<FieldPath>();
  for (const [index, asked] of stages.entries()) {
    if (asked.drafts.length > 0 || asked.watch.impossible.length > 0) continue;
    for (const field of lacking(asked, plan[index])) {
      if (!isRangeOfCar(field)) return undefined;
      fields.add(field);
    }
  }
  return fields.size > 0 && fields.size <= MOST_FIELDS ? [...fields].toSorted() : undefined;
}

/** Whether the usual range of a field is that of cars and their plans, not of parts that are still to be chosen. */
function isRangeOfCar(field: FieldPath): boolean {
  const section = fieldSchema((stepsOf(field)[0] ?? '') as FieldPath);
  return section?.given === true && usualRange(field) !== undefined;
}

function lacking({ watch }: Asked, stage: StageAnalysis | undefined): FieldPath[] {
  return watch.lacks.filter((field) => !stage || makesSense(field, stage.sheet) !== false);
}

/** Every corner of the ranges of fields, and the middle of all. */
function casesOf(fields: readonly FieldPath[]): string[][] {
  const ranges = fields.flatMap((field) => usualRange(field) ?? []);
  const corners = ranges.reduce<string[][]>(
    (before, { from, to }) => before.flatMap((corner) => [from, to].map((end) => [...corner, end])),
    [[]],
  );
  return [...corners, ranges.map(({ middle }) => middle)];
}

function changesFor(plan: Plan, field: FieldPath, to: string): Change[] {
  if (!field.startsWith('stages.')) return [{ set: stepsOf(field), to }];
  return plan.flatMap(({ index, sheet }) =>
    valueAt(sheet.stage, stepsOf(field), 1) === undefined ? [{ set: inStage(index, field), to }] : [],
  );
}

function settledIn(
  rule: Rule,
  asked: Asked,
  index: number,
  fields: readonly FieldPath[],
  trials: readonly Trial[],
  plan: Plan,
  house: House,
): Asked {
  if (asked.drafts.length > 0 || lacking(asked, plan[index]).length === 0) return asked;
  const said = trials.flatMap(({ written, answers }) => {
    const answer = answers.get(rule)?.[index];
    return answer ? [{ written, answer }] : [];
  });
  const isOpen = ({ answer }: (typeof said)[number]) =>
    answer.drafts.length === 0 && (lacking(answer, plan[index]).length > 0 || answer.watch.impossible.length > 0);
  if (said.some(isOpen)) return asked;
  if (said.every(({ answer }) => answer.drafts.length === 0)) return { drafts: [], watch: new Watch(), later: 0 };
  if (said.some(({ answer }) => answer.drafts.length === 0)) return asked;
  const excess = ({ answer }: (typeof said)[number]) => Math.max(...answer.drafts.map((draft) => draft.excess ?? 0));
  const [mildest] = said.toSorted((one, other) => excess(one) - excess(other));
  if (!mildest) return asked;
  if (mildest.answer.drafts.some(({ at }) => fields.some((field) => field === at))) return asked;
  const note = noteOn(fields, mildest.written, house);
  return { ...mildest.answer, drafts: mildest.answer.drafts.map((draft) => told(draft, note)), later: 0 };
}

function told({ repairs: _, ...draft }: Draft, note: string): Draft {
  return { ...draft, message: `${draft.message} ${note}` };
}

function noteOn(fields: readonly FieldPath[], written: readonly string[], house: House): string {
  const ranges = fields.map((field) => {
    const { from = '', to = '' } = usualRange(field) ?? {};
    return `${fieldSchema(field)?.title?.toLowerCase() ?? field}, ${shown(field, from, house)} to ${shown(field, to, house)}`;
  });
  const taken = fields.map((field, index) => shown(field, written[index] ?? '', house));
  const [it, is] = fields.length === 1 ? ['it', 'the figure here is'] : ['them', 'the figures here are'];
  return `The sheet does not give ${it}, but this holds over the whole usual range (${ranges.join('; ')}); ${is} for ${taken.join(' and ')}.`;
}

function shown(field: FieldPath, text: string, house: House): string {
  const dimension = fieldSchema(field)?.dimension;
  const quantity = dimension && readQuantity(text, dimension);
  return quantity && isQuantity(quantity) ? formatGiven(quantity.value, quantity.dimension, unitsIn(house)) : text;
}
