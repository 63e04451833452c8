import type { StageAnalysis } from '../analysis/analysis.ts';
import { isKnown, type Term } from '../analysis/figure.ts';
import { figures } from '../analysis/figures.ts';
import { isLeaf } from '../analysis/node.ts';
import { absentIn, type Entry } from '../analysis/worksheet.ts';
import { makesSense } from '../sheet/makes-sense.ts';
import { type FieldPath, fieldAt, fieldSchema, type Path, stepsOf, valueAt } from '../sheet/path.ts';
import { isPoint } from '../sheet/points.ts';
import { child, type FieldSchema } from '../sheet/schema.ts';
import type { OpenCheck } from './finding.ts';
import type { RuleId, Severity } from './rule.ts';

/** A field that is not known, and what knowing it would settle or bring nearer. */
export type Question = {
  field: FieldPath;
  /** The stage it is asked for: that of a stage's own field, else the first that misses it. */
  stage: number;
  checks: readonly RuleId[];
  /** The figures that cannot be had without it, by name. */
  figures: readonly string[];
  /** Whether the sheet has it, left empty. */
  isEmpty: boolean;
  /** What is taken as long as it is not known. */
  assumed?: Term;
};

type Plan = readonly StageAnalysis[];

/** How far fields move the main figures, each over the range it usually has; nothing for those without one. */
export type Moves = (fields: readonly FieldPath[]) => ReadonlyMap<FieldPath, number>;

/** What a check that could not be made weighs by what it would find. */
const WEIGHTS: Record<Severity, number> = { error: 8, warning: 4, information: 2, hint: 1 };

/**
 * What a figure weighs that cannot be had, one that stands on a usual value, and a main figure that a field moves by all of
 * itself over the range the field usually has.
 */
const ABSENT_FIGURE = 4;
const ASSUMED_FIGURE = 0.5;
const MOVED_FIGURE = 8;

/** What the fields weigh that a stage begins with, whatever else asks for them. */
const BEGINNING = 40;

/**
 * How much less a field is asked for where a usual value would do or where it is a point of careful installation, and how much
 * more where the car and the plan give it.
 */
const USUAL = 0.1;
const POINT = 0.02;
const GIVEN = 3;

/**
 * What to ask next: fields left empty before the others, each lot weightiest first. A check or figure that lacks one field
 * only counts whole for it; one that lacks several counts for each in part. A field with a usual range weighs by how far it
 * `moves` the main figures over that range. A section of which nothing is known stands for
 * the fields to begin it with. Of a plan with one stage it is asked what comes later. Fields of equal weight stay in the
 * order in which they were missed.
 */
export function questionsOf(
  open: readonly OpenCheck[],
  plan: Plan = [],
  unknown: readonly Path[] = [],
  moves: Moves = () => new Map(),
): Question[] {
  const asked = new Asked(plan);
  for (const path of unknown) asked.add(fieldAt(path) as FieldPath, stageOf(path), 0, { isEmpty: true });
  for (const { rule, severity, lacks, lacksByStage, stages } of open) {
    for (const field of lacks) {
      const missing = stages.filter((_, index) => lacksByStage[index]?.includes(field));
      const weight = WEIGHTS[severity] / lacks.length;
      for (const stage of isOfStage(field) ? missing : missing.slice(0, 1))
        asked.add(field, stage, weight * rarity(field), { check: rule });
    }
  }
  for (const { index } of plan) asked.add('stages', index, BEGINNING, {});
  if (plan.length === 1 && plan[0]?.sheet.stage.power) asked.add('stages.power', 1, BEGINNING, {});
  for (const stage of plan) addFigures(asked, stage);
  return asked.all(moves);
}

/** A field as a question, whether or not it is known. */
export function asQuestion(field: FieldPath, stage: number): Question {
  return { field, stage, checks: [], figures: [], isEmpty: false };
}

function addFigures(asked: Asked, stage: StageAnalysis): void {
  const known = new Map<Entry, ReadonlySet<Term>>();
  for (const node of figures) {
    const absent = absentIn(stage.see(node));
    if (absent?.moot || absent?.unread) continue;
    for (const field of absent?.lacks ?? []) {
      const weight = (ABSENT_FIGURE * rarity(field)) / (absent?.lacks.length ?? 1);
      asked.add(field, stage.index, weight, { figure: node.name });
    }
    if (absent) continue;
    const terms = assumedUnder(stage.worksheet.entryOf(node), stage, known);
    for (const term of terms) asked.assume(term, stage.index);
  }
}

/** The usual values a node stands on, wherever they come in. */
function assumedUnder(entry: Entry, stage: StageAnalysis, known: Map<Entry, ReadonlySet<Term>>): ReadonlySet<Term> {
  const before = known.get(entry);
  if (before) return before;
  const own = assumedAt(entry, stage);
  const below = entry.used.map((used) => assumedUnder(used, stage, known)).filter(({ size }) => size > 0);
  const found = own || below.length > 1 ? new Set(below.flatMap((terms) => [...terms])) : (below[0] ?? NO_TERMS);
  if (own) (found as Set<Term>).add(own);
  known.set(entry, found);
  return found;
}

const NO_TERMS: ReadonlySet<Term> = new Set();

function assumedAt({ node, outcome }: Entry, stage: StageAnalysis): Term | undefined {
  if (!isLeaf(node) || !isKnown(outcome)) return undefined;
  const [term] = stage.worksheet.termsOf(node);
  return term?.assumed && term.field ? term : undefined;
}

type Draft = { -readonly [K in keyof Omit<Question, 'checks' | 'figures'>]: Question[K] } & {
  checks: Set<RuleId>;
  figures: Set<string>;
  weight: number;
  /** How many figures stand on its usual value. */
  standing: number;
};

/** The questions as they gather weight. */
class Asked {
  private readonly drafts = new Map<string, Draft>();
  private readonly sought = new Map<number, Map<FieldPath, readonly FieldPath[]>>();

  constructor(private readonly plan: Plan) {}

  /** Whether a stage does not have a field; without a plan, every stage misses it. */
  isMissing(field: FieldPath, stage: number): boolean {
    const sheet = this.plan[stage]?.sheet;
    if (!sheet) return true;
    const steps = stepsOf(field);
    const value = isOfStage(field) ? valueAt(sheet.stage, steps, 1) : valueAt(sheet.values, steps);
    return value === undefined || value === null;
  }

  add(
    field: FieldPath,
    stage: number,
    weight: number,
    what: { check?: RuleId; figure?: string; isEmpty?: true },
  ): void {
    const fields = this.soughtFor(field, stage);
    for (const one of fields) {
      const draft = this.draft(one, stage);
      draft.weight += weight / fields.length;
      if (what.check) draft.checks.add(what.check);
      if (what.figure) draft.figures.add(what.figure);
      if (what.isEmpty) draft.isEmpty = true;
    }
  }

  /** A figure of a stage stands on a usual value; limits of the house are no question. */
  assume(term: Term, stage: number): void {
    const field = fieldAt(term.field ?? []) as FieldPath;
    if (field.startsWith('limits.') || isNoneWhenAbsent(field) || !this.makesSense(field, stage)) return;
    const draft = this.draft(field, stage);
    draft.standing++;
    draft.assumed ??= term;
  }

  all(moves: Moves): Question[] {
    const drafts = [...this.drafts.values()];
    const moved = moves([...new Set(drafts.map(({ field }) => field))]);
    const weights = new Map(drafts.map((draft) => [draft, weightOf(draft, moved.get(draft.field))]));
    const weightIn = (draft: Draft) => weights.get(draft) ?? 0;
    return drafts
      .toSorted((one, other) => Number(other.isEmpty) - Number(one.isEmpty) || weightIn(other) - weightIn(one))
      .map(({ weight: _, standing: __, checks, figures, ...question }) => ({
        ...question,
        checks: [...checks],
        figures: [...figures],
      }));
  }

  private draft(field: FieldPath, stage: number): Draft {
    const key = isOfStage(field) ? `${field} ${stage}` : field;
    let draft = this.drafts.get(key);
    if (!draft) {
      draft = { field, stage, checks: new Set(), figures: new Set(), isEmpty: false, weight: 0, standing: 0 };
      this.drafts.set(key, draft);
    }
    return draft;
  }

  /** Whether it is known that a field makes sense; what decides it is asked for before. */
  private makesSense(field: FieldPath, stage: number): boolean {
    const sheet = this.plan[stage]?.sheet;
    return !sheet || makesSense(field, sheet) === true;
  }

  /** The fields to ask for where one is missing, looked up once a field and stage. */
  private soughtFor(field: FieldPath, stage: number): readonly FieldPath[] {
    const ofStage = this.sought.get(stage) ?? new Map<FieldPath, readonly FieldPath[]>();
    this.sought.set(stage, ofStage);
    let fields = ofStage.get(field);
    if (!fields) {
      fields = this.expanded(field, stage).filter((one) => this.makesSense(one, stage));
      ofStage.set(field, fields);
    }
    return fields;
  }

  /** The fields that a field stands for: itself, or those a section begins with, as far as they are missing. */
  private expanded(field: FieldPath, stage: number): FieldPath[] {
    const first = firstOf(fieldSchema(field));
    if (!first) return [field];
    const missing = first.map((name) => `${field}.${name}` as FieldPath).filter((one) => this.isMissing(one, stage));
    return missing.flatMap((one) => this.expanded(one, stage));
  }
}

function firstOf(schema: FieldSchema | undefined): readonly string[] | undefined {
  if (schema?.type !== 'array') return schema?.first;
  return child(schema, 0)?.first;
}

/** Whether a field that is not written means that there is no such thing, or nothing of what it stands in. */
function isNoneWhenAbsent(field: FieldPath): boolean {
  const steps = stepsOf(field);
  return steps.some((_, index) => fieldSchema(steps.slice(0, index + 1).join('.') as FieldPath)?.absent === 'none');
}

function weightOf({ field, weight, standing }: Draft, moved: number | undefined): number {
  const section = fieldSchema((stepsOf(field)[0] ?? '') as FieldPath);
  const all = weight + (moved === undefined ? ASSUMED_FIGURE * standing : MOVED_FIGURE * moved);
  return section?.given ? GIVEN * all : all;
}

function rarity(field: FieldPath): number {
  if (isPoint(field)) return POINT;
  return fieldSchema(field)?.absent === 'usual' ? USUAL : 1;
}

function isOfStage(field: FieldPath): boolean {
  return field.startsWith('stages.');
}

function stageOf([section, index]: Path): number {
  return section === 'stages' && typeof index === 'number' ? index : 0;
}
