import { type Checked, checkSheet } from '../checking/checked.ts';
import { asQuestion } from '../checking/questions.ts';
import { wholeRange, writtenOf } from '../sheet/entry.ts';
import { unitsIn } from '../sheet/house.ts';
import { type FieldPath, fieldSchema, type Path } from '../sheet/path.ts';
import type { TextEdit } from '../sheet/problem.ts';
import { entryOf, type Sheet } from '../sheet/read.ts';
import { difference } from '../text/difference.ts';
import { touches } from '../text/place.ts';
import { type Answer, answerOf } from './answer.ts';
import { type AskedQuestion, asked, askedOf } from './questions.ts';
import { sheetWith } from './write-answer.ts';

/** A question that was put, as it can be sent and sent back. */
type Put = { field: FieldPath; stage: number };

/** How far an asking has come: the questions put so far in their order, and which of them is being asked. */
export type Asking = { put: readonly Put[]; at: number };

/**
 * What is said to a question: an answer as it was typed or chosen, that it is not known yet, to leave what the sheet says,
 * or to go back to the question before.
 */
export type Reply = { answer: string } | 'unknown' | 'keep' | 'back';

/** What comes of a reply: what to write, why nothing can be written, and what is asked next; no question, once all are put. */
export type Turn = {
  asking: Asking;
  edits: readonly TextEdit[];
  refusal?: string;
  question?: PutQuestion;
};

export type PutQuestion = AskedQuestion & {
  /** What the sheet says at present. */
  written?: string;
  /** How many questions come after it. */
  left: number;
};

export const beginning: Asking = { put: [], at: 0 };

type Read = (text: string) => Sheet;

/**
 * Puts the questions about a sheet one after the other, weightiest first. Each answer is an edit to be made at once; without
 * a reply the question that is being asked is put again.
 */
export function ask(checked: Checked, asking: Asking, reply: Reply | undefined, read: Read): Turn {
  const current = asking.put[asking.at];
  if (!current || reply === undefined) return put(checked, asking);
  if (reply === 'back') return put(checked, { ...asking, at: Math.max(0, asking.at - 1) });
  if (reply === 'keep') return put(checked, { ...asking, at: asking.at + 1 });
  const after = answered(checked, current, reply, read);
  if ('refusal' in after) return { ...put(checked, asking), ...after };
  const next = put(after.checked, { ...asking, at: asking.at + 1 });
  return { ...next, edits: difference(checked.sheet.text, after.checked.sheet.text) };
}

/** The sheet with a reply in it, or why it cannot be there. */
function answered(
  checked: Checked,
  { field, stage }: Put,
  reply: Exclude<Reply, 'back' | 'keep'>,
  read: Read,
): { checked: Checked } | { refusal: string } {
  const { place } = asked(asQuestion(field, stage), checked);
  if (reply === 'unknown' && !leavesRoom(checked, field, stage)) return { checked };
  const units = unitsIn(checked.house);
  const answer: Answer = reply === 'unknown' ? { value: null } : answerOf(reply.answer, fieldSchema(field), units);
  if ('refusal' in answer) return answer;
  const sheet = sheetWith(checked.sheet, place, answer.value, read);
  const problem = sheet ? newProblem(checked.sheet, sheet, place) : NO_ROOM;
  if (sheet && !problem) return { checked: checkSheet(sheet, checked.house, checked) };
  return reply === 'unknown' ? { checked } : { refusal: problem ?? NO_ROOM };
}

/** Whether a field that is not known yet is left empty: not where a usual value will do, nor for a stage that is not planned. */
function leavesRoom({ plan }: Checked, field: FieldPath, stage: number): boolean {
  return fieldSchema(field)?.absent !== 'usual' && stage < Math.max(1, plan.length);
}

const NO_ROOM = 'The sheet has no room for it as it is written; type it in there.';

/** What is wrong with what was written at a place, or with the text because of it. */
function newProblem(before: Sheet, after: Sheet, place: Path): string | undefined {
  const entry = entryOf(after, place);
  if (!entry || (after.broken && !before.broken)) return NO_ROOM;
  const known = before.problems.map(({ code, message }) => `${code} ${message}`);
  const own = after.problems.filter(({ range }) => touches(range, wholeRange(entry)));
  return own.find(({ code, message }) => !known.includes(`${code} ${message}`))?.message;
}

/** The question an asking has come to: one that was put before, or the next of those that were not. */
function put(checked: Checked, { put: before, at }: Asking): Turn {
  const places = new Set(before.map(({ field, stage }) => asked(asQuestion(field, stage), checked).at));
  const open = askedOf(checked).filter(({ at: place }) => !places.has(place));
  const again = before[at];
  const question = again ? asked(asQuestion(again.field, again.stage), checked) : open.shift();
  if (!question) return { asking: { put: before, at: before.length }, edits: [] };
  const { field, stage } = question;
  const asking = again ? { put: before, at } : { put: [...before, { field, stage }], at: before.length };
  const left = asking.put.length - 1 - asking.at + open.length;
  return { asking, edits: [], question: { ...question, ...written(checked, question), left } };
}

function written({ sheet }: Checked, { place }: AskedQuestion): { written?: string } {
  const entry = entryOf(sheet, place);
  if (!entry || entry.kind === 'empty') return {};
  const { start, end } = entry.value;
  return { written: entry.kind === 'scalar' ? writtenOf(entry, sheet.text) : sheet.text.slice(start, end).trim() };
}

/** A question, and the edits that leave an empty field for its answer. */
export type NextQuestion = { text: string; edits: readonly TextEdit[] };

/** The weightiest question whose field a sheet does not have yet, not even left empty. */
export function nextQuestion(checked: Checked, read: Read): NextQuestion | undefined {
  const question = askedOf(checked).find(({ place }) => !entryOf(checked.sheet, place));
  const after = question && sheetWith(checked.sheet, question.place, null, read);
  return after && { text: question.text, edits: difference(checked.sheet.text, after.text) };
}
