import { applyEdits } from './edit.ts';
import type { Problem, ProblemFix, TextEdit } from './problem.ts';
import type { Sheet } from './read.ts';

export type ReadText = Pick<Sheet, 'text' | 'problems'>;
export type Read = (text: string) => ReadText;

/**
 * The fixes of a problem that hold when the text with them is read again: the problem is gone, nothing is wrong with what
 * was written, and no more lines are broken than before.
 */
export function fixesThatHold(sheet: ReadText, problem: Problem, read: Read): ProblemFix[] {
  return problem.fixes.filter(({ edits }) => holds(sheet, problem, edits, read));
}

function holds(before: ReadText, problem: Problem, edits: TextEdit[], read: Read): boolean {
  const after = read(applyEdits(before.text, edits));
  const isGone = count(after.problems, problem) < count(before.problems, problem);
  return isGone && broken(after.problems) <= broken(before.problems) && !isWrongAgain(after.problems, edits);
}

function count(problems: readonly Problem[], { code, message }: Problem): number {
  return problems.filter((other) => other.code === code && other.message === message).length;
}

function broken(problems: readonly Problem[]): number {
  return problems.filter(({ code }) => code === 'sheet/syntax' || code === 'sheet/conflict').length;
}

/** Whether something is wrong with a text that the edits have put in the place of another. */
function isWrongAgain(problems: readonly Problem[], edits: readonly TextEdit[]): boolean {
  let shift = 0;
  const written = edits.flatMap(({ start, end, text }) => {
    const from = start + shift;
    shift += text.length - (end - start);
    return end > start ? [{ start: from, end: from + text.length }] : [];
  });
  return problems.some(({ range }) => written.some(({ start, end }) => range.start < end && start < range.end));
}
