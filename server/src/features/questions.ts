import type { StageAnalysis } from '../analysis/analysis.ts';
import type { Term } from '../analysis/figure.ts';
import type { Checked } from '../checking/checked.ts';
import { type Question, questionsOf } from '../checking/questions.ts';
import { completed } from '../fit/completed.ts';
import { movesOf } from '../fit/moves.ts';
import { rules } from '../generated/rules.ts';
import { type Block, type Page, paragraph, prose, type Span } from '../report/page.ts';
import type { NewValue } from '../sheet/edit.ts';
import { pathText } from '../sheet/entry.ts';
import { unitsIn } from '../sheet/house.ts';
import { type FieldPath, fieldSchema, inStage, type Path, stepsOf } from '../sheet/path.ts';
import { child, type FieldSchema, resolve, root } from '../sheet/schema.ts';
import { echo } from '../text/echo.ts';
import { formatIn, formatValue, type Units } from '../units/format.ts';
import { unitOf } from './answer.ts';

/** A choice a field has, and what it means. */
export type Choice = { value: string; meaning: string };

/** A question as it is put to someone who does not know the format. */
export type AskedQuestion = {
  field: FieldPath;
  stage: number;
  /** Where the answer goes, also as a text. */
  place: Path;
  at: string;
  /** The question, with the stage it is about where there are several. */
  text: string;
  title: string;
  /** What the field says, as its reference has it. */
  description: string;
  choices: readonly Choice[];
  /** The unit a number without one is read in; empty, where there is none. */
  unit: string;
  /** How an answer may look, where there are no choices. */
  example: string;
  /** What is taken as long as the answer is not known, and why. */
  usual?: { value: string; because: string };
  /** The checks that wait for the answer, by what they find. */
  settles: readonly { rule: string; title: string }[];
  /** The figures that wait for it, by name. */
  figures: readonly string[];
  isEmpty: boolean;
};

/** What to ask next about a sheet, weightiest first, as someone who does not know the format is asked. */
export function askedOf(checked: Checked): AskedQuestion[] {
  const taken = takenIn(checked);
  return orderedIn(checked).map((question) => asked(question, checked, taken));
}

function orderedIn(checked: Checked): Question[] {
  const { open, plan, sheet } = checked;
  return questionsOf(open, plan, sheet.unknown, (fields) => movesOf(checked, fields));
}

/** The first questions of all that are asked next, and how many are left. */
export function nextOf(checked: Checked, most: number): { questions: AskedQuestion[]; left: number } {
  const { open, plan, sheet } = checked;
  const all = questionsOf(open, plan, sheet.unknown);
  const taken = takenIn(checked);
  return {
    questions: all.slice(0, most).map((question) => asked(question, checked, taken)),
    left: Math.max(0, all.length - most),
  };
}

/** What stands in for the fields that a sheet does not give, by their places. */
type Taken = ReadonlyMap<string, { value: NewValue; because: string }>;

function takenIn(checked: Checked): Taken {
  return new Map(completed(checked).assumed.map(({ place, value, because }) => [pathText(place), { value, because }]));
}

/** A question in words. */
export function asked(question: Question, checked: Checked, taken: Taken = takenIn(checked)): AskedQuestion {
  const { plan, sheet, house } = checked;
  const { field, stage, checks, figures, isEmpty, assumed } = question;
  const schema = fieldSchema(field) ?? {};
  const units = unitsIn(house);
  const isOfStage = field.startsWith('stages.');
  const isOneOfSeveral = isOfStage && (sheet.values.stages?.length ?? 0) > 1;
  const about = isOneOfSeveral ? `Stage "${echo(plan[stage]?.name ?? String(stage + 1))}": ` : '';
  const isLater = field === 'stages.power' && stage > 0 && stage >= plan.length;
  const text = questionText(field);
  const place = placeOf(field, plan[stage], stage);
  return {
    field,
    stage,
    place,
    at: pathText(place),
    text: isLater ? questionText('stages') : isOneOfSeveral ? about + text : text.replace(' in this stage', ''),
    unit: unitOf(schema, units),
    title: schema.title ?? field,
    description: schema.description ?? '',
    choices: choicesOf(schema),
    example: exampleOf(schema),
    ...usualOf(assumed, taken.get(pathText(place)), unitOf(schema, units), units),
    settles: checks.map((rule) => ({ rule, title: rules.find(({ id }) => id === rule)?.title ?? rule })),
    figures,
    isEmpty,
  };
}

function usualOf(
  term: Term | undefined,
  taken: ReturnType<Taken['get']>,
  unit: string,
  units: Units,
): Pick<AskedQuestion, 'usual'> {
  if (taken && !Array.isArray(taken.value)) return { usual: { value: String(taken.value), because: taken.because } };
  if (!term?.assumed) return {};
  const value = unit ? formatIn(term.value, term.dimension, unit) : formatValue(term.value, term.dimension, units);
  return { usual: { value: term.text ?? value, because: term.assumed } };
}

function placeOf(field: FieldPath, plan: StageAnalysis | undefined, stage: number): Path {
  if (field.startsWith('stages.')) return inStage(stage, field);
  return plan?.sheet.placeOf(field) ?? stepsOf(field);
}

/** The question of a field, about the part it belongs to. */
export function questionText(field: FieldPath): string {
  const question = fieldSchema(field)?.question ?? `What is \`${field}\`?`;
  return question.replace('{part}', partOf(stepsOf(field)));
}

/** What a field belongs to, by the innermost field around it that says so. */
function partOf(steps: readonly string[]): string {
  let schema: FieldSchema | undefined = root;
  let part = 'part';
  for (const step of steps) {
    const written: FieldSchema | undefined = schema && resolve(schema).properties?.[step];
    schema = schema && child(schema, step);
    if (schema?.type === 'array' && step === 'stages') schema = child(schema, 0);
    part = written?.part ?? schema?.part ?? part;
  }
  return part;
}

function choicesOf({ enum: words, enumDescriptions = [], type }: FieldSchema): Choice[] {
  if (type === 'boolean')
    return [
      { value: 'true', meaning: 'Yes.' },
      { value: 'false', meaning: 'No.' },
    ];
  return (words ?? []).map((value, index) => ({ value, meaning: enumDescriptions[index] ?? '' }));
}

/** An example as it is typed: pairs of a table one after the other. */
function exampleOf({ examples: [example] = [] }: FieldSchema): string {
  if (!Array.isArray(example)) return String(example ?? '');
  return example.map((one) => (Array.isArray(one) ? one.join(' ') : String(one))).join(', ');
}

/** The place among the questions of each field, and of each section by the first question in it. */
export type Ranks = ReadonlyMap<string, number>;

export const NO_RANKS: Ranks = new Map();

const ranks = new WeakMap<Checked, Ranks>();

/** The order in which fields are asked for. */
export function ranksOf(checked: Checked): Ranks {
  const known = ranks.get(checked);
  if (known) return known;
  const found = new Map<string, number>();
  for (const [index, { field }] of orderedIn(checked).entries()) {
    const steps = stepsOf(field);
    for (let length = 1; length <= steps.length; length++) {
      const path = steps.slice(0, length).join('.');
      if (!found.has(path)) found.set(path, index);
    }
  }
  ranks.set(checked, found);
  return found;
}

/** The next questions, with what each would settle, for whoever fills in the sheet; of a long list the first so many. */
export function questionsPage(questions: readonly AskedQuestion[], most = Number.POSITIVE_INFINITY): Page {
  if (questions.length === 0) return [paragraph('Nothing is left to ask.')];
  const items = questions
    .slice(0, most)
    .map((question): Span[] => [...prose(question.text), ' ', { code: question.at }, ...waiting(question)]);
  const left = questions.length - items.length;
  const rest: Block[] = left > 0 ? [paragraph(`and ${left} more.`)] : [];
  return [paragraph({ strong: 'To ask next' }), { kind: 'list', items }, ...rest];
}

function waiting({ settles, figures, usual }: AskedQuestion): Span[] {
  const count = settles.length + figures.length;
  const what = [counted(settles.length, 'check'), counted(figures.length, 'figure')].filter(Boolean).join(' and ');
  const words = [
    ...(count > 0 ? [`${what} ${count === 1 ? 'waits' : 'wait'} for it`] : []),
    ...(usual ? [`${usual.value} until then: ${usual.because}`] : []),
  ];
  return words.length > 0 ? [` (${words.join('; ')})`] : [];
}

function counted(count: number, what: string): string {
  return count === 0 ? '' : `${count} ${what}${count === 1 ? '' : 's'}`;
}

/** The questions as they are sent to someone who knows the car and not the format. */
export function questionsLetter(title: string, questions: readonly AskedQuestion[]): Page {
  if (questions.length === 0) return [paragraph(`About ${title}: nothing is left to ask.`)];
  const items = questions.map(({ text, choices, example, usual }): Span[] => {
    const hint = choices.length > 0 ? '' : example ? ` (such as ${example})` : '';
    return [text + hint, ...(usual ? [` If you do not know, we take ${usual.value}.`] : [])];
  });
  return [
    paragraph(`About ${title}: please tell us what you know of these, and leave out what you do not.`),
    { kind: 'list', items },
  ];
}
